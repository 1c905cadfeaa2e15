import { randomBytes } from 'node:crypto';
import {
  closeSync,
  fchmodSync,
  fsyncSync,
  openSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/**
 * Replaces a file's content in one step: at any moment, and after any failure, the path holds the whole old or
 * the whole new content. The mode of an old file is kept; a new file gets the usual one.
 * @param path not a symbolic link (it would be replaced by a file)
 * @throws what the file system throws; the old file is then untouched and no temporary file stays
 */
export function replaceFile(path: string, content: string | Uint8Array): void {
  const temporary = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}.tmp`);
  const handle = openSync(temporary, 'wx', 0o600);
  try {
    try {
      writeFileSync(handle, content);
      fchmodSync(handle, modeOf(path));
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(temporary, path);
  } catch (error) {
    unlinkSync(temporary);
    throw error;
  }
}

/** Mode of the file, or what the process gives new files. */
function modeOf(path: string): number {
  const old = statSync(path, { throwIfNoEntry: false });
  return old ? old.mode & 0o7777 : 0o666 & ~process.umask();
}
