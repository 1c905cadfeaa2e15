import { MAX_RIG_BYTES, type ParsedRig, parseRig } from './parse-rig.ts';
import { decodeText, type FileKind, readUserFile } from './read-text-file.ts';

export { type ParsedRig, parseRig } from './parse-rig.ts';

export const RIG_FILE: FileKind = {
  area: 'rig',
  noun: 'a rig file',
  maxBytes: MAX_RIG_BYTES,
  ifMissing: 'check the path, or run "tautline new" for an example to start from',
};

/**
 * Reads a rig file.
 * @throws TautlineError `rig/invalid` with every problem at its line and column; `rig/not-found`,
 *   `rig/directory`, `rig/too-large`, `rig/binary` or `rig/unreadable` for the file as a whole
 */
export function readRig(path: string): ParsedRig {
  return parseRig(decodeText(readUserFile(path, RIG_FILE), path, RIG_FILE), path);
}
