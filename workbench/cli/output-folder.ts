import { existsSync, mkdirSync, statSync } from 'node:fs';
import { TautlineError } from '../../sim/errors.ts';

/**
 * Makes sure that a name can be a folder before work is spent on it.
 * @param option that names it, for messages: `--out`
 * @throws TautlineError `output/...`
 */
export function checkFolder(folder: string, option: string): void {
  if (folder === '') {
    throw new TautlineError('output/no-folder', `${option} is empty; expected a folder.`, {
      detail: 'Name a folder.',
    });
  }
  if (existsSync(folder) && !statSync(folder).isDirectory()) {
    throw new TautlineError('output/not-a-folder', `${folder} is a file; expected a folder.`, {
      detail: `Name a folder for ${option}.`,
      places: [{ file: folder, line: 0, column: 0 }],
    });
  }
}

/** Only the last part of the path is made: a mistyped path is no reason to make folders anywhere. */
export function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  try {
    mkdirSync(folder);
  } catch (cause) {
    throw new TautlineError('output/no-folder', `The folder ${folder} cannot be made.`, {
      detail: `${cause instanceof Error ? cause.message : String(cause)}. Name a folder in one that is there and that you may write to.`,
      places: [{ file: folder, line: 0, column: 0 }],
      cause,
    });
  }
}
