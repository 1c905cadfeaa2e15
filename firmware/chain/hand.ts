import { compensate } from './compensate.ts';
import type { FingerState } from './finger.ts';
import { putWord, startFinger, stepFinger } from './finger.ts';
import type { ChainConstants } from './prepare.ts';

/** The fingers of a hand, all lists in the same order. */
export interface HandChain {
  fingers: FingerState[];
  constants: ChainConstants[];
}

/**
 * One frame of the whole hand. Words of fingers whose output has not changed are not written again.
 * @param sums one function per finger: sum of the frame's readings, each 0-1, not NaN
 * @param factor for all sums, where they are compensated at all
 * @param places index of each finger's word in `words`
 */
export function stepHand(
  hand: HandChain,
  sums: (() => number)[],
  isCompensated: boolean,
  factor: number,
  words: Uint16Array,
  places: number[],
): void {
  for (let i = 0; i < places.length; i++) {
    const f = hand.fingers[i];
    const k = hand.constants[i];
    if (stepFinger(f, reading(sums[i](), isCompensated, factor), k)) putWord(words, places[i], f, k);
  }
}

/** Takes the present readings as they are: at the start, and after a gap instead of sliding towards them. */
export function startHand(
  hand: HandChain,
  sums: (() => number)[],
  isCompensated: boolean,
  factor: number,
  words: Uint16Array,
  places: number[],
): void {
  for (let i = 0; i < places.length; i++) {
    startFinger(hand.fingers[i], reading(sums[i](), isCompensated, factor));
    putWord(words, places[i], hand.fingers[i], hand.constants[i]);
  }
}

function reading(sum: number, isCompensated: boolean, factor: number): number {
  return isCompensated ? compensate(sum, factor) : sum;
}
