/** One gram-force centimetre, the unit of many potentiometer datasheets, in mN·m (exact: 9.80665 m/s^2). */
export const MNM_PER_GF_CM = 0.0980665;

/**
 * Tension of the string at the spool.
 * @param torqueMNm torque of the spring for this direction (hysteresis included)
 * @param dragMNm torque that turns the potentiometer
 * @param direction +1 paying out (drag adds), -1 winding in (drag takes away), 0 neither
 * @returns N, >= 0: a string cannot push
 */
export function stringTensionN(
  torqueMNm: number,
  dragMNm: number,
  radiusMm: number,
  direction: number,
): number {
  const tensionN = (torqueMNm + direction * dragMNm) / radiusMm;
  return tensionN > 0 ? tensionN : 0;
}

/** Force across the fingertip that balances the string's torque about the knuckle, N. */
export function fingertipNormalN(tensionN: number, mcpArmMm: number, fingerLengthMm: number): number {
  return (tensionN * mcpArmMm) / fingerLengthMm;
}

/** Printed spool: width and density of solid PLA (material tables); both assumed for every rig. */
export const SPOOL_WIDTH_MM = 6;
export const SPOOL_DENSITY_KG_PER_M3 = 1240;

/**
 * Moment of inertia of a solid printed disc about its axis, kg·m².
 * @param densityKgPerM3 solid PLA 1240 (material tables; a printed part is rarely solid, so this is high)
 */
export function spoolInertiaKgM2(radiusMm: number, widthMm: number, densityKgPerM3: number): number {
  return 0.5 * Math.PI * densityKgPerM3 * (radiusMm * 0.001) ** 4 * (widthMm * 0.001);
}

/**
 * Torque that the spool's inertia asks for at the sharpest point of a minimum-jerk opening, 5.7735 D / T^2
 * (Flash & Hogan 1985).
 * @param strokeMm string wound in during the opening
 * @param timeS time of the opening
 */
export function inertiaTorqueMNm(
  inertiaKgM2: number,
  strokeMm: number,
  radiusMm: number,
  timeS: number,
): number {
  const peak = 10 / Math.sqrt(3);
  return (1000 * inertiaKgM2 * peak * strokeMm) / (radiusMm * timeS * timeS);
}

/**
 * Return rule: the spring should give 1.5 times the potentiometer's drag and what inertia asks for (the 1.5 is
 * assumed).
 * @param springTorqueMNm smallest torque over the stroke
 * @returns torque given over torque asked for; >= 1 is fine, below it expect slack string
 */
export function returnFactor(springTorqueMNm: number, dragMNm: number, inertiaMNm: number): number {
  return springTorqueMNm / (1.5 * dragMNm + inertiaMNm);
}

/**
 * Limits of a string's pull over hours of use, N. Assumed, near the key forces of NUREG-0700 rev. 3 (0.25-1.5 N,
 * repetitive 0.3-0.75 N).
 */
export const LEAST_PULL_N = 0.2;
export const TIRING_PULL_N = 0.75;
export const MOST_PULL_N = 1.5;

/** How a string tension feels over hours of use. */
export function tensionVerdict(tensionN: number): 'loose' | 'fine' | 'tiring' | 'too strong' {
  if (tensionN > MOST_PULL_N) return 'too strong';
  if (tensionN > TIRING_PULL_N) return 'tiring';
  return tensionN >= LEAST_PULL_N ? 'fine' : 'loose';
}
