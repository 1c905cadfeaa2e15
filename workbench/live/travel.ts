import { INVALID_VALUE, TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';

/** Travel of a word, 0 open to 1 closed; null where it is none. */
export function travelOf(word: number): number | null {
  if (word === INVALID_VALUE) return null;
  return (word - TRAVEL_OPEN_WORD) / (TRAVEL_CLOSED_WORD - TRAVEL_OPEN_WORD);
}
