import { INVALID_VALUE } from '../../protocol/frame.ts';
import { putWord, startFinger } from '../chain/finger.ts';
import type { Program } from './program.ts';
import { frozenCount, isFrozen, isOpenWiper } from './wiper-check.ts';

/** Looks in a row at which a finger may give the same sum while others move. 20 looks are 1 s at 100 Hz. Assumed. */
const FROZEN_LOOKS = 20;
/** Looks for which a finger seen moving counts as moving: one round of the hand. */
const ROUND = 5;
/** Change of a sum from look to look that is movement and not noise, share of full scale. Assumed. */
const MOVEMENT = 0.02;

/** Looks at one wiper a frame, in turn: an open or frozen one is found within five frames, at a fifth of the cost. */
export function watchWiper(p: Program): void {
  const io = p.io;
  const run = p.run;
  const turn = run.turn;
  const sum = io.sum(io.views[turn]);
  const change = sum - io.lastSums[turn];
  if (change > MOVEMENT * p.build.oversampling || change < -MOVEMENT * p.build.oversampling) {
    run.mover = turn;
    run.moverAge = 0;
  } else if (run.moverAge < ROUND) run.moverAge = run.moverAge + 1;
  io.lastSums[turn] = sum;
  if (change === 0) {
    const othersMoved = run.moverAge < ROUND && run.mover !== turn;
    io.sameCounts[turn] = frozenCount(io.sameCounts[turn], true, othersMoved);
  } else io.sameCounts[turn] = 0;
  const isFaulty = isOpenWiper(sum, io.openBelow[turn]) || isFrozen(io.sameCounts[turn], FROZEN_LOOKS);
  if (isFaulty !== ((run.faults >> turn) & 1) > 0) changeFault(p, turn);
  run.turn = turn + 1 < p.build.places.length ? turn + 1 : 0;
}

/** A finger becomes invalid, or valid again: then it starts from its present reading. */
export function changeFault(p: Program, finger: number): void {
  p.run.faults = p.run.faults ^ (1 << finger);
  for (let i = 0; i < p.build.places.length; i++) {
    if (i === finger) {
      startFinger(p.fingers[i], p.io.sums[i]());
      putWord(p.io.words, p.build.places[i], p.fingers[i], p.constants[i]);
    }
  }
}

/** Overwrites the words of fingers that have a fault. */
export function maskFaults(p: Program): void {
  for (let i = 0; i < p.build.places.length; i++) {
    if ((p.run.faults >> i) & 1) p.io.words[p.build.places[i]] = INVALID_VALUE;
  }
}
