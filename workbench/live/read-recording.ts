import { type FileHandle, open, stat } from 'node:fs/promises';
import { TautlineError } from '../../sim/errors.ts';
import { openRecordingOf, type Recording } from './recording.ts';

/** Bytes read at a time. */
const CHUNK_BYTES = 65_536;

/**
 * Opens a recording in a file. It is read piece by piece, so that its length does not matter.
 * @throws TautlineError `recording/not-found`, `/directory`, `/unreadable`, `/binary`, and as openRecordingOf
 */
export async function readRecording(path: string): Promise<Recording> {
  await check(path);
  return openRecordingOf(path, () => chunksOf(path));
}

async function* chunksOf(path: string): AsyncGenerator<Uint8Array> {
  let handle: FileHandle;
  try {
    handle = await open(path, 'r');
  } catch (cause) {
    throw unreadable(path, cause);
  }
  try {
    const buffer = new Uint8Array(CHUNK_BYTES);
    for (;;) {
      const { bytesRead } = await handle.read(buffer, 0, CHUNK_BYTES);
      if (bytesRead === 0) return;
      yield buffer.slice(0, bytesRead);
    }
  } finally {
    await handle.close();
  }
}

async function check(path: string): Promise<void> {
  let facts: Awaited<ReturnType<typeof stat>>;
  try {
    facts = await stat(path);
  } catch (cause) {
    throw unreadable(path, cause);
  }
  if (facts.isDirectory()) throw fail(path, 'directory', 'a folder', 'name the file inside it');
  // Opening a pipe that nobody writes to would wait for ever.
  if (!facts.isFile()) throw fail(path, 'unreadable', 'a device or pipe', 'name a file');
  for await (const bytes of chunksOf(path)) {
    const [a, b] = bytes;
    if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) {
      throw fail(path, 'binary', 'text in UTF-16', 'use the file as it was recorded, or save it as UTF-8');
    }
    break;
  }
}

function unreadable(path: string, cause: unknown): TautlineError {
  const code = cause instanceof Error && 'code' in cause ? String(cause.code) : 'unknown cause';
  if (code === 'ENOENT') {
    const next = 'check the path; "tautline record" makes recordings';
    return fail(path, 'not-found', 'no such file', next, cause);
  }
  const next = code === 'EACCES' ? 'check who may read it' : 'check the path';
  return fail(path, 'unreadable', `cannot be read (${code})`, next, cause);
}

function fail(file: string, code: string, seen: string, next: string, cause?: unknown): TautlineError {
  const place = { file, line: 0, column: 0 };
  return TautlineError.fromProblems(
    `recording/${code}`,
    [{ ...place, seen, expected: 'a recording of "tautline record"', next }],
    cause,
  );
}
