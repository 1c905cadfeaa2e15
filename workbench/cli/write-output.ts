import { accessSync, constants, existsSync, realpathSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { TautlineError } from '../../sim/errors.ts';
import { replaceFile } from '../rig/replace-file.ts';

/**
 * Refuses results that would overwrite what was read, or each other.
 * @param outputs by the option that names them; undefined = not asked for
 * @param inputs files that were read
 * @throws TautlineError `output/overwrites`
 */
export function checkApart(
  outputs: Record<string, string | undefined>,
  inputs: readonly (string | undefined)[],
): void {
  const taken = new Map<string, string>();
  for (const input of inputs)
    if (input !== undefined) taken.set(placeOf(input), `the file ${input}, which is read`);
  for (const [option, path] of Object.entries(outputs)) {
    if (path === undefined) continue;
    const other = taken.get(placeOf(path));
    if (other !== undefined) {
      throw new TautlineError('output/overwrites', `${option} ${path} would overwrite ${other}.`, {
        detail: 'Name another file; nothing was written.',
        places: [{ file: path, line: 0, column: 0 }],
      });
    }
    taken.set(placeOf(path), `what ${option} writes`);
  }
}

/** One name for a file, whatever way leads to it. */
function placeOf(path: string): string {
  return existsSync(path) ? realpathSync(path) : resolve(path);
}

/**
 * Makes sure that a result can be written before minutes are spent on it.
 * @throws TautlineError `output/...`
 */
export function checkOutput(path: string): void {
  const folder = dirname(path);
  const places = [{ file: path, line: 0, column: 0 }];
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new TautlineError('output/no-folder', `${path}: the folder ${folder} is not there.`, {
      detail: 'Make the folder first, or name another file.',
      places,
    });
  }
  if (existsSync(path) && statSync(path).isDirectory()) {
    throw new TautlineError('output/directory', `${path} is a folder; expected a file name.`, {
      detail: 'Name a file in it.',
      places,
    });
  }
  try {
    accessSync(existsSync(path) ? path : folder, constants.W_OK);
  } catch (cause) {
    throw new TautlineError('output/not-writable', `${path} may not be written.`, {
      detail: 'Check its permissions, or name another file.',
      places,
      cause,
    });
  }
}

/** Writes a result in one step: either the whole new file is there or the old one still is. */
export function writeOutput(path: string, text: string): void {
  try {
    replaceFile(path, text);
  } catch (cause) {
    throw new TautlineError('output/not-written', `${path} could not be written.`, {
      detail: `${cause instanceof Error ? cause.message : String(cause)}. Check that the disk has room.`,
      places: [{ file: path, line: 0, column: 0 }],
      cause,
    });
  }
}
