// Host only: turns the dwell of a gesture into the frame count that the toggle uses.

/**
 * Frames of dwell, rounded up: the gesture never flips sooner than `dwellMs` after the first frame beyond the
 * threshold.
 * @param dwellMs >= 0
 * @param frameRateHz > 0
 */
export function dwellFrames(dwellMs: number, frameRateHz: number): number {
  // 30 ms at 100 Hz is 3 frames although 0.03 * 100 lies above 3 in binary.
  return Math.ceil((dwellMs * frameRateHz) / 1000 - 1e-9);
}
