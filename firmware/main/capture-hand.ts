import { compensate } from '../chain/compensate.ts';
import { capturedHigh, capturedLow, closedEnd, hasMoved, openEnd } from './capture.ts';
import { applyEnds } from './live-numbers.ts';
import type { Program } from './program.ts';

/** Share of full scale that a finger must move in a capture. Assumed: far above noise, below every useful build. */
const LEAST_SPAN = 0.1;
/** Numbers for each finger in `captured`: lowest, highest, first. */
const EACH = 3;

/** Begins a capture: the first reading of each finger is its open end's neighbour. */
export function beginCapture(p: Program): void {
  for (let i = 0; i < p.build.places.length; i++) {
    // any reading is lower, and any is higher; -1 = no first reading yet
    p.io.captured[EACH * i] = 2;
    p.io.captured[EACH * i + 1] = -1;
    p.io.captured[EACH * i + 2] = -1;
  }
  p.run.isCapturing = true;
}

/** Takes the readings of this frame into the capture. */
export function captureHand(p: Program, factor: number): void {
  const captured = p.io.captured;
  for (let i = 0; i < p.build.places.length; i++) {
    const sum = p.io.sums[i]();
    const reading = (p.build.railNominal > 0 ? compensate(sum, factor) : sum) / p.build.oversampling;
    captured[EACH * i] = capturedLow(captured[EACH * i], reading);
    captured[EACH * i + 1] = capturedHigh(captured[EACH * i + 1], reading);
    if (captured[EACH * i + 2] < 0) captured[EACH * i + 2] = reading;
  }
}

/**
 * Ends a capture: fingers that moved far enough get new ends.
 * @returns bit = place among the five values: this finger has new ends
 */
export function endCapture(p: Program): number {
  const captured = p.io.captured;
  let moved = 0;
  p.run.isCapturing = false;
  for (let i = 0; i < p.build.places.length; i++) {
    const low = captured[EACH * i];
    const high = captured[EACH * i + 1];
    if (hasMoved(low, high, LEAST_SPAN)) {
      const open = openEnd(captured[EACH * i + 2], low, high);
      applyEnds(p, i, open, closedEnd(open, low, high));
      moved = moved | (1 << p.build.slots[i]);
    }
  }
  return moved;
}
