// Host only: turns the dwell of a gesture into the frame count that the toggle uses.

/**
 * Frames of dwell, rounded up: the gesture never flips sooner than `dwellMs` after the first frame beyond the
 * threshold.
 * @param dwellMs >= 0
 * @param frameRateHz > 0
 */
export function dwellFrames(dwellMs: number, frameRateHz: number): number {
  const frames = (dwellMs * frameRateHz) / 1000;
  // Rates such as 1 / 0.01 s carry a rounding error that must not cost a whole frame.
  return frames > 1e-9 ? Math.ceil(frames - 1e-9) : 0;
}
