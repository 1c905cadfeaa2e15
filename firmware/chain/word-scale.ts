// Gain and offset of the board's straight line, and the way back from a word to a reading.
import { TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';

/** Two captured ends of one finger as mean readings of 0-1 (counts / 4096); closed may be below open. */
export interface Ends {
  open: number;
  closed: number;
}

const WORDS = TRAVEL_CLOSED_WORD - TRAVEL_OPEN_WORD;

/** Words per unit of the summed reading. Both ends 0-1. */
export function wordGain(open: number, closed: number, oversampling: number): number {
  return WORDS / ((closed - open) * oversampling);
}

/** Word at a summed reading of 0; half a word is added because the store drops the fraction. */
export function wordOffset(open: number, closed: number): number {
  return TRAVEL_OPEN_WORD + 0.5 - (open * WORDS) / (closed - open);
}

/** Mean reading (0-1) that a word stands for. */
export function readingOfWord(word: number, ends: Ends): number {
  return ends.open + ((word - TRAVEL_OPEN_WORD) / WORDS) * (ends.closed - ends.open);
}
