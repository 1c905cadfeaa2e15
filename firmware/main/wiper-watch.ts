import { INVALID_VALUE } from '../../protocol/frame.ts';
import { putWord, startFinger } from '../chain/finger.ts';
import type { Program } from './program.ts';
import { frozenCount, isFrozen, isOpenWiper } from './wiper-check.ts';

/** Looks in a row at which a finger gives the same sum while others move: 2 s at 100 Hz with five fingers. Assumed. */
const FROZEN_LOOKS = 5;
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
export function watchFrozen(p: Program): void {
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
  const count = frozenCount(io.sameCounts[turn], change === 0, othersMoved);
  io.sameCounts[turn] = count;
  if (isFrozen(count, FROZEN_LOOKS) !== ((run.frozen >> turn) & 1) > 0) changeFrozen(p, turn);
  run.turn = turn + 1 < p.build.places.length ? turn + 1 : 0;
}

/** A finger becomes invalid, or valid again: then it starts from its present reading. */
function changeFrozen(p: Program, finger: number): void {
  p.run.frozen = p.run.frozen ^ (1 << finger);
  for (let i = 0; i < p.build.places.length; i++) {
    if (i === finger) {
      startFinger(p.fingers[i], p.io.sums[i]());
      putWord(p.io.words, p.build.places[i], p.fingers[i], p.constants[i]);
    }
  }
}
