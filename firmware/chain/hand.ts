import { type FingerState, startFinger, stepFinger } from './finger.ts';
import { FRAME_RESTART, FRAME_SKIP, frameAction } from './frame-time.ts';
import type { ChainConstants } from './prepare.ts';

/**
 * One frame of the whole hand.
 * @param fingers states, changed in place
 * @param readings sum of readings per finger; NaN = no valid reading, the finger keeps its last value
 * @param constants per finger, same order
 * @param elapsedS device time since the last used frame, s
 * @param gapS see `frameAction`
 * @returns false when the frame was skipped (its clock did not advance)
 */
export function stepHand(
  fingers: FingerState[],
  readings: ArrayLike<number>,
  constants: ChainConstants[],
  elapsedS: number,
  gapS: number,
): boolean {
  const action = frameAction(elapsedS, gapS);
  if (action === FRAME_SKIP) return false;
  for (let i = 0; i < fingers.length; i++) {
    const reading = readings[i];
    // NaN differs from itself: the only test for it that the interpreter and the host share cheaply.
    if (reading === reading) {
      if (action === FRAME_RESTART || fingers[i].started === 0) startFinger(fingers[i], reading);
      else stepFinger(fingers[i], reading, constants[i]);
    }
  }
  return true;
}
