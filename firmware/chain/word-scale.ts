// Host only: gain and offset of the board's straight line, and the way back from a word to a reading.
import { TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';

/** Two captured ends of one finger as mean readings of 0-1 (counts / 4096); closed may be below open. */
export interface Ends {
  open: number;
  closed: number;
}

const WORDS = TRAVEL_CLOSED_WORD - TRAVEL_OPEN_WORD;

/** Words per unit of the summed reading. */
export function wordGain(ends: Ends, oversampling: number): number {
  return WORDS / ((ends.closed - ends.open) * oversampling);
}

/** Word at a summed reading of 0; half a word is added because the store drops the fraction. */
export function wordOffset(ends: Ends): number {
  return TRAVEL_OPEN_WORD + 0.5 - (ends.open * WORDS) / (ends.closed - ends.open);
}

/** Mean reading (0-1) that a word stands for. */
export function readingOfWord(word: number, ends: Ends): number {
  return ends.open + ((word - TRAVEL_OPEN_WORD) / WORDS) * (ends.closed - ends.open);
}
