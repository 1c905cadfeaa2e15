/**
 * Landsmeer's three ways in which a tendon can cross a joint (formulas from memory of his 1961 work; the
 * values in the tests are computed from the formulas). All give mm of excursion for an angle in rad.
 */

/** I: over a pulley of fixed radius. */
export function pulleyExcursionMm(angleRad: number, radiusMm: number): number {
  return radiusMm * angleRad;
}

/** II: tethered close to the joint, so that it takes the chord; less than I at large angles. */
export function chordExcursionMm(angleRad: number, radiusMm: number): number {
  return 2 * radiusMm * Math.sin(angleRad / 2);
}

/**
 * III: in a sheath that lets it bow away from the joint.
 * @param offsetMm distance of the sheath from the bone's axis (d)
 * @param reachMm distance along the bone from the joint to where the sheath begins (y)
 */
export function sheathExcursionMm(angleRad: number, offsetMm: number, reachMm: number): number {
  // 2 - t/tan(t/2) is t^2/6 near zero, where the closed form loses all its digits.
  const bow = Math.abs(angleRad) < 1e-3 ? (angleRad * angleRad) / 6 : 2 - angleRad / Math.tan(angleRad / 2);
  return angleRad * offsetMm + reachMm * bow;
}
