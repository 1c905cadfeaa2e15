import type { Ends } from '../../firmware/chain/word-scale.ts';
import { TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';

/**
 * Ends that a board's words refer to, from two live numbers of the finger (protocol/SPEC.md, command get): 7 word gain
 * and 8 word offset.
 * @param gain words per sum
 * @param offset word at a sum of 0, with the half word that rounds
 * @param oversampling readings in a sum
 */
export function endsOfLiveNumbers(gain: number, offset: number, oversampling: number): Ends {
  const at = (word: number) => (word + 0.5 - offset) / gain / oversampling;
  return { open: at(TRAVEL_OPEN_WORD), closed: at(TRAVEL_CLOSED_WORD) };
}
