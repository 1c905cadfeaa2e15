import { readFileSync, statSync } from 'node:fs';
import { TautlineError } from '../../sim/errors.ts';
import { problemAt } from './yaml-source.ts';

/** What a kind of file is called in messages, and how large it may be. */
export interface FileKind {
  /** Area of its error codes, such as `rig`. */
  area: string;
  noun: string;
  maxBytes: number;
  /** What to do if it is not there. */
  ifMissing: string;
}

function failWhole(kind: FileKind, file: string, cause: string, seen: string, next: string, error?: unknown) {
  const place = { file, line: 0, column: 0 };
  return TautlineError.fromProblems(
    `${kind.area}/${cause}`,
    [problemAt(place, seen, kind.noun, next)],
    error,
  );
}

function errnoOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : 'unknown cause';
}

/**
 * Reads a file of a user's as bytes.
 * @throws TautlineError `<area>/not-found`, `/directory`, `/too-large` or `/unreadable`, at the file as a whole
 */
export function readUserFile(path: string, kind: FileKind): Buffer {
  try {
    // Before opening: opening a pipe that nobody writes to would wait for ever.
    const facts = statSync(path);
    if (facts.isDirectory()) throw failWhole(kind, path, 'directory', 'a folder', 'name the file inside it');
    if (!facts.isFile()) throw failWhole(kind, path, 'unreadable', 'a device or pipe', 'name a file');
    if (facts.size > kind.maxBytes) {
      const seen = `${(facts.size / 1e6).toFixed(1)} MB, more than the ${kind.maxBytes / 1e6} MB that are read`;
      throw failWhole(kind, path, 'too-large', seen, 'check that this is the right file');
    }
    return readFileSync(path);
  } catch (error) {
    if (error instanceof TautlineError) throw error;
    const code = errnoOf(error);
    if (code === 'ENOENT') throw failWhole(kind, path, 'not-found', 'no such file', kind.ifMissing, error);
    const next = code === 'EACCES' ? 'check who may read it' : 'check the path';
    throw failWhole(kind, path, 'unreadable', `cannot be read (${code})`, next, error);
  }
}

/** Length of the longest start of the bytes that is text in UTF-8. */
function textLength(bytes: Buffer): number {
  const isText = (end: number) => {
    try {
      // With `stream`, a character cut in two at the end is not yet an error.
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, end), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let good = 0;
  let bad = bytes.length;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (isText(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/**
 * Bytes as text in UTF-8, without a byte order mark.
 * @throws TautlineError `<area>/binary` at the first byte that is no text
 */
export function decodeText(bytes: Buffer, file: string, kind: FileKind): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    const utf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
    const offset = textLength(bytes);
    const before = bytes
      .subarray(0, offset)
      .toString('utf8')
      .replace(/\ufffd$/, '')
      .split('\n');
    const place = { file, line: before.length, column: before[before.length - 1]!.length + 1 };
    const seen = utf16
      ? 'text in UTF-16'
      : `the byte 0x${bytes[offset]!.toString(16).padStart(2, '0')}, which is no text in UTF-8`;
    const next = utf16 ? 'save it as UTF-8' : 'check that this is the right file, or save it as UTF-8';
    throw TautlineError.fromProblems(
      `${kind.area}/binary`,
      [problemAt(place, seen, 'a text file in UTF-8', next)],
      cause,
    );
  }
}
