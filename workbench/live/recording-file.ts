import { closeSync, fdatasync, fsyncSync, openSync, writeSync } from 'node:fs';
import { TautlineError } from '../../sim/errors.ts';
import { checkOutput } from '../cli/write-output.ts';
import type { RecordingSink } from './recorder.ts';

/**
 * A new file as the place of a recording. Each block is with the system when `append` returns, so that a process
 * that dies loses none; the disk is asked to keep it soon after, so that a power cut costs the last blocks at most.
 * @throws TautlineError `output/...` when the file cannot be made, or is there already: a recording is not replaced
 */
export function createRecordingFile(path: string): RecordingSink {
  checkOutput(path);
  const handle = open(path);
  let isOpen = true;
  let isSyncing = false;
  let whenSynced: (() => void) | undefined;

  return {
    append(lines) {
      const bytes = Buffer.from(lines, 'utf8');
      let done = 0;
      while (done < bytes.length) done += writeSync(handle, bytes, done);
      if (isSyncing) return;
      isSyncing = true;
      // Some file systems cannot; the lines are with the system all the same.
      fdatasync(handle, () => {
        isSyncing = false;
        whenSynced?.();
      });
    },
    async close() {
      if (!isOpen) return;
      isOpen = false;
      if (isSyncing) {
        await new Promise<void>((resolve) => {
          whenSynced = resolve;
        });
      }
      try {
        fsyncSync(handle);
      } catch {
        // As above.
      }
      closeSync(handle);
    },
  };
}

function open(path: string): number {
  try {
    return openSync(path, 'wx');
  } catch (cause) {
    const places = [{ file: path, line: 0, column: 0 }];
    if (cause instanceof Error && 'code' in cause && cause.code === 'EEXIST') {
      throw new TautlineError('output/exists', `${path} is there already; a recording replaces no file.`, {
        detail: 'Name another file, or remove that one first.',
        places,
        cause,
      });
    }
    throw new TautlineError('output/not-written', `${path} could not be made.`, {
      detail: `${cause instanceof Error ? cause.message : String(cause)}. Name another file.`,
      places,
      cause,
    });
  }
}
