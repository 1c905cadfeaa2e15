import { capturedHigh, capturedLow, closedEnd, hasMoved, openEnd } from './capture.ts';
import { isSteady, putAll } from './hand.ts';
import { applyEnds, LEAST_SPAN } from './live-numbers.ts';
import type { Program } from './program.ts';
import { isOpenWiper } from './wiper-check.ts';

/** Numbers for each finger in `captured`: lowest, highest, first. */
const EACH = 3;

/** Begins a capture: the first level of each finger is its open end's neighbour. @returns false = not now */
export function beginCapture(p: Program): boolean {
  if (!isSteady(p)) return false;
  for (let i = 0; i < p.build.places.length; i++) {
    // any level is lower, and any is higher; -1 = no first one yet
    p.io.captured[EACH * i] = 2;
    p.io.captured[EACH * i + 1] = -1;
    p.io.captured[EACH * i + 2] = -1;
  }
  p.run.isCapturing = true;
  return true;
}

/**
 * Takes the levels of this frame into the capture. Levels and not readings: a single wrong reading would become an
 * end. A wiper that has come off has no level.
 */
export function captureHand(p: Program): void {
  const captured = p.io.captured;
  for (let i = 0; i < p.build.places.length; i++) {
    const level = p.fingers[i].level;
    if (!isOpenWiper(level, p.build.openBelow[i])) {
      const reading = level / p.build.oversampling;
      captured[EACH * i] = capturedLow(captured[EACH * i], reading);
      captured[EACH * i + 1] = capturedHigh(captured[EACH * i + 1], reading);
      if (captured[EACH * i + 2] < 0) captured[EACH * i + 2] = reading;
    }
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
  if (moved > 0) putAll(p);
  return moved;
}
