/** What the chain does with a frame, from the time since the last one. */
export const FRAME_SKIP = 0;
export const FRAME_STEP = 1;
export const FRAME_RESTART = 2;

/**
 * Frames whose clock stood still or ran backwards are skipped (a filter fed with dt <= 0 would divide by it
 * or run backwards); after a gap the chain starts afresh from the new reading instead of sliding towards it.
 * @param elapsedS device time since the last frame that was used, s
 * @param gapS time from which on a silence counts as a gap, s; several frame periods
 */
export function frameAction(elapsedS: number, gapS: number): number {
  return elapsedS > 0 ? (elapsedS >= gapS ? FRAME_RESTART : FRAME_STEP) : FRAME_SKIP;
}
