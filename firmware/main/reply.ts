/** What the board answers to a command, and how it gets into a frame. */
import { writeValue } from '../../protocol/encode.ts';

export interface Reply {
  command: number;
  /** One of the RESULT codes. */
  result: number;
  /** 0 to 2^32 - 1. */
  answer: number;
  tag: number;
}

export function createReply(): Reply {
  return { command: 0, result: 0, answer: 0, tag: 0 };
}

/** Writes the five values of a reply frame; header, flags and check are written as for every frame. */
export function writeReplyValues(
  words: Uint16Array,
  command: number,
  result: number,
  answer: number,
  tag: number,
): void {
  const low = answer % 65536;
  writeValue(words, 0, command);
  writeValue(words, 1, result);
  writeValue(words, 2, low);
  writeValue(words, 3, (answer - low) / 65536);
  writeValue(words, 4, tag);
}
