import { fullFlexionDeg } from '../hand/closure.ts';
import type { Finger } from '../rig/rig.ts';

const RAD = Math.PI / 180;

/** String drawn by one joint, mm: the integral of r(1 + a t) over the angle t. */
function jointMm(deg: number, armMm: number, slopePerRad: number): number {
  const rad = deg * RAD;
  return armMm * rad * (1 + 0.5 * slopePerRad * rad);
}

/**
 * String drawn over the back of a bent finger: one radian moves it by one moment arm, summed over the joints.
 * @param armSlopePerRad how the arms grow with flexion, r(t) = r (1 + a t); 0 = constant (the default: extensor
 * excursion was linear in Elliot & McGrouther 1986); beyond +-0.2 a joint may stop drawing (assumed)
 * @returns mm, 0 for the straight finger
 */
export function excursionMm(
  mcpDeg: number,
  pipDeg: number,
  dipDeg: number,
  mcpArmMm: number,
  pipArmMm: number,
  dipArmMm: number,
  armSlopePerRad: number,
): number {
  return (
    jointMm(mcpDeg, mcpArmMm, armSlopePerRad) +
    jointMm(pipDeg, pipArmMm, armSlopePerRad) +
    jointMm(dipDeg, dipArmMm, armSlopePerRad)
  );
}

/** String drawn between closure 0 and 1 of this finger, mm. */
export function fullExcursionMm(
  finger: Pick<Finger, 'name' | 'momentArmsMm'>,
  armSlopePerRad: number,
): number {
  const full = fullFlexionDeg(finger.name);
  const arms = finger.momentArmsMm;
  return excursionMm(full[0], full[1], full[2], arms[0], arms[1], arms[2], armSlopePerRad);
}

/**
 * The closure that draws so much string; the inverse of the excursion along the closure curve, exact also for
 * growing arms (a quadratic in closure).
 * @param drawnMm string drawn, mm
 * @param fullMm string drawn at closure 1, mm, > 0 (`fullExcursionMm` with the same slope)
 * @param bentMm the part of `fullMm` that is due to growing arms (`bentExcursionMm`), 0 for constant arms;
 * > -fullMm, or the curve turns back before closure 1
 */
export function closureOfExcursion(drawnMm: number, fullMm: number, bentMm: number): number {
  const straightMm = fullMm - bentMm;
  const root = straightMm * straightMm + 4 * bentMm * drawnMm;
  // Past the turning point of the parabola no closure draws that much: stay at the turning point.
  if (root <= 0) return -straightMm / (2 * bentMm);
  return (2 * drawnMm) / (straightMm + Math.sqrt(root));
}

/** How much of `fullExcursionMm` comes from the growth of the arms, mm; 0 when the slope is 0. */
export function bentExcursionMm(
  finger: Pick<Finger, 'name' | 'momentArmsMm'>,
  armSlopePerRad: number,
): number {
  return fullExcursionMm(finger, armSlopePerRad) - fullExcursionMm(finger, 0);
}
