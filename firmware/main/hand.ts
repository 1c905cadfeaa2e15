import { compensate } from '../chain/compensate.ts';
import { putWord, startFinger, stepFinger } from '../chain/finger.ts';
import type { Program } from './program.ts';

/**
 * A wired finger's reading of this frame: the sum of its single readings, as it would be at the nominal rail.
 * @param finger index among the wired ones
 * @param factor of the rail, see `railFactorNow`
 */
function reading(p: Program, finger: number, factor: number): number {
  const sum = p.io.sums[finger]();
  return p.build.railNominal > 0 ? compensate(sum, factor) : sum;
}

/** One frame of the whole hand. Words of fingers whose output has not changed are not written again. */
export function stepHand(p: Program, factor: number): void {
  for (let i = 0; i < p.build.places.length; i++) {
    if (stepFinger(p.fingers[i], reading(p, i, factor), p.constants[i])) putOne(p, i);
  }
}

/** Takes a finger's present reading as it is: no slide towards it. */
export function startOne(p: Program, finger: number, factor: number): void {
  startFinger(p.fingers[finger], reading(p, finger, factor));
  putOne(p, finger);
}

/** The first frame, and the first after a gap: every finger takes its reading as it is. */
export function restartHand(p: Program, factor: number): void {
  for (let i = 0; i < p.build.places.length; i++) startOne(p, i, factor);
  p.run.isFresh = false;
}

/** Writes the words of all fingers anew: resting ones would keep those of the old numbers. */
export function putAll(p: Program): void {
  for (let i = 0; i < p.build.places.length; i++) putOne(p, i);
}

function putOne(p: Program, finger: number): void {
  putWord(p.io.words, p.build.places[finger], p.fingers[finger], p.constants[finger]);
}

/** Whether the levels are those of now: hand frames are being made, and the last one is behind them. */
export function isSteady(p: Program): boolean {
  return p.run.rawSlot < 0 && !p.run.isFresh;
}
