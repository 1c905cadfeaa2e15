import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BoardId } from '../../../firmware/boards/board.ts';
import { TautlineError } from '../../../sim/errors.ts';

/** One file of an image and where it goes. */
export interface ImagePart {
  file: string;
  /** Byte offset in flash. */
  at: number;
  bytes: Uint8Array;
}

export interface ImageSet {
  board: BoardId;
  /** In order of offset; they do not overlap. */
  parts: ImagePart[];
}

/** @throws TautlineError `image/unreadable` */
export function readBytes(folder: string, file: string): Uint8Array {
  try {
    return new Uint8Array(readFileSync(join(folder, file)));
  } catch (cause) {
    throw new TautlineError('image/unreadable', `${join(folder, file)}: ${(cause as Error).message}.`, {
      detail: 'Check the name and its permissions.',
      cause,
    });
  }
}
