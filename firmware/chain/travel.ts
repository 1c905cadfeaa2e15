// Host only: the way from the word in a frame to travel and back.
import { TRAVEL_CLOSED_WORD, TRAVEL_INVALID_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';

const WORDS = TRAVEL_CLOSED_WORD - TRAVEL_OPEN_WORD;

/** Travel that one word step stands for. */
export const TRAVEL_STEP = 1 / WORDS;

/**
 * Travel of a frame's word.
 * @param word unsigned 16-bit
 * @returns 0 at the captured open end, 1 at the closed one, a little outside beyond them; NaN for the word that
 * says that the finger has no valid value
 */
export function travelOfWord(word: number): number {
  return word === TRAVEL_INVALID_WORD ? NaN : (word - TRAVEL_OPEN_WORD) / WORDS;
}

/**
 * Word nearest to a travel, limited to the words that mean a travel; NaN gives the invalid word.
 * @param travel 0 = open end, 1 = closed end
 */
export function wordOfTravel(travel: number): number {
  if (travel !== travel) return TRAVEL_INVALID_WORD;
  const word = Math.floor(TRAVEL_OPEN_WORD + travel * WORDS + 0.5);
  return Math.max(0, Math.min(TRAVEL_INVALID_WORD - 1, word));
}
