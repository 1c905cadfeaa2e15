import { realpathSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import type { Settings } from '../../firmware/chain/settings.ts';
import { TautlineError } from '../../sim/errors.ts';
import { parseRig, RIG_FILE } from './read-rig.ts';
import { decodeText, readUserFile } from './read-text-file.ts';
import { replaceFile } from './replace-file.ts';
import { withSettings } from './settings-yaml.ts';
import type { YamlSource } from './yaml-source.ts';

const BOM = '\ufeff';

/** Reads the file as it is now, or refuses if that is not what the settings were chosen for. */
function readCurrent(
  path: string,
  readBefore: Pick<YamlSource, 'text'> | undefined,
): { bytes: Buffer; text: string } {
  const bytes = readUserFile(path, RIG_FILE);
  const text = decodeText(bytes, path, RIG_FILE);
  if (readBefore !== undefined && readBefore.text !== text) {
    throw new TautlineError('rig/changed', `${path} was changed after it was read; nothing was written.`, {
      detail:
        'The settings were chosen for the file as it was. Run the command again to choose for the new one.',
      places: [{ file: path, line: 0, column: 0 }],
    });
  }
  return { bytes, text };
}

/**
 * Puts settings into a rig file, in place of those it has. Comments and layout elsewhere stay as they are; the
 * file is replaced in one step and keeps its mode. On any error the file is left as it was.
 * @param readBefore what {@link readRig} gave as `source`: if the file has changed since, nothing is written
 * @throws TautlineError `rig/changed`; `rig/invalid` if the file is no valid rig or would not be one with these
 *   settings; `rig/not-written` if the disk refuses; and what {@link readRig} throws
 */
export function writeSettings(path: string, settings: Settings, readBefore?: Pick<YamlSource, 'text'>): void {
  const { bytes, text } = readCurrent(path, readBefore);
  const before = parseRig(text, path);
  const newText = withSettings(before.source, settings);
  const after = parseRig(newText, path);
  if (!isDeepStrictEqual(after.rig, { ...before.rig, settings }) || after.restFile !== before.restFile) {
    throw new TautlineError(
      'rig/not-written',
      `${path}: the settings could not be put in without changing the rig.`,
      {
        detail: 'Nothing was written. Please report this with the file, and put the settings in by hand.',
        places: [{ file: path, line: 0, column: 0 }],
      },
    );
  }
  // Once more, as close to the replacement as can be.
  readCurrent(path, { text });
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
