import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { TautlineError } from '../../../sim/errors.ts';

/** Longest program, bytes: the smallest board has 896 kB for files, but 64 kB of text is no hand controller's. */
const LONGEST = 65_536;

/** A program as it goes to the board. */
export interface BoardProgram {
  file: string;
  /** ASCII text. */
  text: string;
  /** Program version that its health frames carry, 0-255; undefined = not told. */
  expectedId: number | undefined;
}

/**
 * Reads a program and the JSON beside it.
 * @param path a program (board.js, with board.json beside it) or a folder with bundle.json, which names the program:
 *   `{"program": "board.js", "expectedId": 57}`
 * @throws TautlineError `program/...`
 */
export function readProgram(path: string): BoardProgram {
  if (!existsSync(path)) {
    throw problem(
      'program/missing',
      path,
      'There is no such file or folder.',
      'Make one with "tautline bundle".',
    );
  }
  const folder = statSync(path).isDirectory();
  const jsonFile = folder ? join(path, 'bundle.json') : path.replace(/(\.[^./\\]*)?$/, '.json');
  const about = existsSync(jsonFile) && jsonFile !== path ? readAbout(jsonFile) : undefined;
  if (folder && typeof about?.program !== 'string') {
    throw problem(
      'program/no-bundle',
      jsonFile,
      about ? 'It has no "program".' : 'There is no such file.',
      'Expected {"program": "board.js", "expectedId": 57}. Make a bundle with "tautline bundle".',
    );
  }
  const file = folder ? join(path, about?.program as string) : path;
  return { file, text: readText(file), expectedId: readId(jsonFile, about?.expectedId) };
}

function readAbout(file: string): { program?: unknown; expectedId?: unknown } {
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(file, 'utf8'));
  } catch (cause) {
    throw problem(
      'program/json',
      file,
      `It is no JSON: ${(cause as Error).message}.`,
      'Make the bundle again.',
    );
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw problem('program/json', file, 'It holds no object.', 'Make the bundle again.');
  }
  return value;
}

function readId(file: string, value: unknown): number | undefined {
  if (value === undefined) return undefined;
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0 || value > 255) {
    const seen = JSON.stringify(value);
    throw problem('program/id', file, `expectedId is ${seen}; expected a whole number from 0 to 255.`, '');
  }
  return value;
}

function readText(file: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch (cause) {
    throw problem(
      'program/missing',
      file,
      `It cannot be read: ${(cause as Error).message}.`,
      'Make the bundle again.',
    );
  }
  if (bytes.length === 0) throw problem('program/empty', file, 'It is empty.', 'Make the bundle again.');
  if (bytes.length > LONGEST) {
    throw problem(
      'program/long',
      file,
      `It has ${bytes.length} bytes; expected at most ${LONGEST}.`,
      'Is it the right file?',
    );
  }
  const at = bytes.findIndex(
    (byte) => !(byte >= 0x20 && byte < 0x7f) && byte !== 0x0a && byte !== 0x0d && byte !== 9,
  );
  if (at >= 0) {
    const line = bytes.subarray(0, at).toString('latin1').split('\n').length;
    const seen = `0x${bytes[at].toString(16).padStart(2, '0')}`;
    throw problem(
      'program/not-ascii',
      `${file}:${line}`,
      `Byte ${at} is ${seen}; expected printable ASCII, tabs and line ends.`,
      'The board reads bytes, not UTF-8, and some control bytes interrupt it. Write such characters as \\x escapes.',
    );
  }
  return bytes.toString('latin1');
}

function problem(code: string, place: string, seen: string, next: string): TautlineError {
  return new TautlineError(code, `${place}: ${seen}`, { detail: next });
}
