/**
 * Share of a point-to-point movement done: 10 t^3 - 15 t^4 + 6 t^5 (Flash & Hogan 1985).
 * @param tau time since the start as a share of the movement time; held at 0 before and 1 after
 * @returns 0-1
 */
export function minimumJerk(tau: number): number {
  if (!(tau > 0)) return 0;
  if (tau >= 1) return 1;
  return tau * tau * tau * (10 + tau * (6 * tau - 15));
}

/**
 * Speed in distances per movement time; peak 1.875 at tau 0.5 (computed). Divide by the movement time for 1/s.
 */
export function minimumJerkVelocity(tau: number): number {
  if (!(tau > 0 && tau < 1)) return 0;
  const rest = 1 - tau;
  return 30 * tau * tau * rest * rest;
}

/**
 * Acceleration in distances per movement time squared; peak 5.7735 at tau 0.2113 (computed). Divide by the
 * movement time squared for 1/s^2.
 */
export function minimumJerkAcceleration(tau: number): number {
  if (!(tau > 0 && tau < 1)) return 0;
  return 60 * tau * (1 - tau) * (1 - 2 * tau);
}
