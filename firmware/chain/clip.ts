/**
 * Limits a step, so that one wrong reading cannot throw the smoothed value further than a finger moves.
 * @param step new reading minus smoothed value, in any unit
 * @param limit largest step let through, same unit, > 0; a limit above full scale lets everything through
 */
export function clip(step: number, limit: number): number {
  return step > limit ? limit : step < -limit ? -limit : step;
}

/**
 * Whether a clip with this limit would change the step. Very near the limit, where squares round, a step may pass
 * that is too large by its last digit.
 * @param limitSquared square of the clip's limit
 */
export function exceeds(step: number, limitSquared: number): boolean {
  return step * step > limitSquared;
}
