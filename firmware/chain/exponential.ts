/**
 * First-order low-pass: one step of the exponential average.
 * @param level smoothed value so far
 * @param step new reading minus `level`
 * @param gain share of the step that is taken, 0-1, from `exponentialGain`
 */
export function exponential(level: number, step: number, gain: number): number {
  return level + step * gain;
}
