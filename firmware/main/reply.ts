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
export function writeReply(words: Uint16Array, reply: Reply): void {
  const low = reply.answer % 65536;
  writeValue(words, 0, reply.command);
  writeValue(words, 1, reply.result);
  writeValue(words, 2, low);
  writeValue(words, 3, (reply.answer - low) / 65536);
  writeValue(words, 4, reply.tag);
}
