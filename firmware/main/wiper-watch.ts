import { INVALID_VALUE } from '../../protocol/frame.ts';
import { startOne } from './hand.ts';
import type { Program } from './program.ts';
import { frozenCount, isFrozen, isOpenWiper } from './wiper-check.ts';

/**
 * Looks in a row at which a finger gives the same sum while others move: 4 s at 100 Hz with five fingers. Assumed; half
 * as many would call a resting finger frozen some ten times an hour where one reading with little noise is taken.
 */
const FROZEN_LOOKS = 10;
/** Largest reading of a 12-bit converter. */
const FULL_SCALE = 4095 / 4096;
/** Looks for which a finger seen moving counts as moving: one round of the hand. */
const ROUND = 5;
/** Change of a sum from look to look that is movement and not noise, share of full scale. Assumed. */
const MOVEMENT = 0.02;

/** Whether the wiper of any finger from the given one on has come off: seen in every frame, in one test. */
export function isOpenFrom(p: Program, finger: number): boolean {
  return finger < p.build.places.length
    ? isOpenWiper(p.fingers[finger].level, p.build.openBelow[finger]) || isOpenFrom(p, finger + 1)
    : false;
}

/** Overwrites the words of fingers whose wiper has come off or is frozen. */
export function maskFaults(p: Program): void {
  for (let i = 0; i < p.build.places.length; i++) {
    if (isOpenWiper(p.fingers[i].level, p.build.openBelow[i]) || (p.run.frozen >> i) & 1) {
      p.io.words[p.build.places[i]] = INVALID_VALUE;
    }
  }
}

/** Looks whether one finger, each time another one, has frozen: gives exactly the same readings while others move. */
export function watchFrozen(p: Program, factor: number): void {
  const io = p.io;
  const run = p.run;
  const turn = run.turn;
  const start = turn * p.build.readsEach + p.build.readsDropped;
  const sum = io.sum(io.readings.subarray(start, start + p.build.oversampling));
  const change = sum - io.lastSums[turn];
  if (change > MOVEMENT * p.build.oversampling || change < -MOVEMENT * p.build.oversampling) {
    run.mover = turn;
    run.moverAge = 0;
  } else if (run.moverAge < ROUND) run.moverAge = run.moverAge + 1;
  io.lastSums[turn] = sum;
  const othersMoved = run.moverAge < ROUND && run.mover !== turn;
  // at either end of the converter's range all readings are alike
  const isSame = change === 0 && sum > 0 && sum < FULL_SCALE * p.build.oversampling;
  const count = frozenCount(io.sameCounts[turn], isSame, othersMoved, FROZEN_LOOKS);
  io.sameCounts[turn] = count;
  if (isFrozen(count, FROZEN_LOOKS) !== ((run.frozen >> turn) & 1) > 0) changeFrozen(p, turn, factor);
  run.turn = turn + 1 < p.build.places.length ? turn + 1 : 0;
}

/** A finger becomes invalid, or valid again: then it starts from its present reading. */
function changeFrozen(p: Program, finger: number, factor: number): void {
  p.run.frozen = p.run.frozen ^ (1 << finger);
  for (let i = 0; i < p.build.places.length; i++) if (i === finger) startOne(p, i, factor);
}
