import { accessSync, constants, existsSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { TautlineError } from '../../sim/errors.ts';
import { replaceFile } from '../rig/replace-file.ts';

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
