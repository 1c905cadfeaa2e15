import { realpathSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import { TautlineError } from '../../sim/errors.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { parseRig, RIG_FILE } from './read-rig.ts';
import { decodeText, readUserFile } from './read-text-file.ts';
import { replaceFile } from './replace-file.ts';
import type { YamlSource } from './yaml-source.ts';

const BOM = '\ufeff';

/** What is to become of a rig file. */
export interface Rewrite {
  /** What is put in, for messages: `the settings`. */
  what: string;
  /** What they were worked out by, for messages: `chosen`. */
  made: string;
  /** The new text; undefined if it cannot be made. */
  textOf: (source: YamlSource, rig: Rig) => string | undefined;
  /** The rig that the new text must give. */
  rigOf: (before: Rig) => Rig;
  /** What {@link readRig} gave as `source`: if the file has changed since, nothing is written. */
  readBefore?: Pick<YamlSource, 'text'> | undefined;
}

/** Reads the file as it is now, or refuses if that is not what the values were worked out for. */
function readCurrent(
  path: string,
  readBefore: Pick<YamlSource, 'text'> | undefined,
  { what, made }: Rewrite,
): { bytes: Buffer; text: string } {
  const bytes = readUserFile(path, RIG_FILE);
  const text = decodeText(bytes, path, RIG_FILE);
  if (readBefore !== undefined && readBefore.text !== text) {
    throw new TautlineError('rig/changed', `${path} was changed after it was read; nothing was written.`, {
      detail: `${what[0]!.toUpperCase()}${what.slice(1)} were ${made} for the file as it was. Run the command again for the new one.`,
      places: [{ file: path, line: 0, column: 0 }],
    });
  }
  return { bytes, text };
}

/**
 * Replaces a rig file in one step by a new text that gives the rig it should give and says the same of all else.
 * The file keeps its mode. On any error it is left as it was.
 * @throws TautlineError `rig/changed`; `rig/invalid` if the file is no valid rig or would not be one afterwards;
 *   `rig/not-written` if the text cannot be made or the disk refuses; and what {@link readRig} throws
 */
export function rewriteRig(path: string, rewrite: Rewrite): void {
  const { bytes, text } = readCurrent(path, rewrite.readBefore, rewrite);
  const before = parseRig(text, path);
  const newText = rewrite.textOf(before.source, before.rig);
  const after = newText === undefined ? undefined : parseRig(newText, path);
  if (!isDeepStrictEqual(after?.rig, rewrite.rigOf(before.rig)) || after?.restFile !== before.restFile) {
    throw new TautlineError(
      'rig/not-written',
      `${path}: ${rewrite.what} could not be put in without changing the rig.`,
      {
        detail: `Nothing was written. Please report this with the file, and put ${rewrite.what} in by hand.`,
        places: [{ file: path, line: 0, column: 0 }],
      },
    );
  }
  // Once more, as close to the replacement as can be.
  readCurrent(path, { text }, rewrite);
  const hasBom = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  try {
    replaceFile(realpathSync(path), (hasBom ? BOM : '') + newText);
  } catch (cause) {
    throw new TautlineError('rig/not-written', `${path} could not be written; it is as it was.`, {
      detail: `${cause instanceof Error ? cause.message : String(cause)}. Check that the folder may be written to and has room.`,
      places: [{ file: path, line: 0, column: 0 }],
      cause,
    });
  }
}
