import type { Phalanges } from './phalanges.ts';

const RAD = Math.PI / 180;

/** Numbers that `fingerPoints` writes: forward and up of four points. */
export const FINGER_POINTS_LENGTH = 8;

/**
 * Planar pose of a finger: the knuckle at the origin, forward = a straight finger, up = out of the back of the
 * hand. Flexion turns forward towards down.
 * @param out receives forward, up (mm) of the knuckle, PIP, DIP and the end of the flesh, in this order
 */
export function fingerPoints(
  mcpDeg: number,
  pipDeg: number,
  dipDeg: number,
  bones: Phalanges,
  out: Float64Array,
): void {
  let angle = mcpDeg * RAD;
  out[0] = 0;
  out[1] = 0;
  out[2] = bones.proximalMm * Math.cos(angle);
  out[3] = -bones.proximalMm * Math.sin(angle);
  angle += pipDeg * RAD;
  out[4] = out[2] + bones.middleMm * Math.cos(angle);
  out[5] = out[3] - bones.middleMm * Math.sin(angle);
  angle += dipDeg * RAD;
  const tip = bones.distalMm + bones.softTipMm;
  out[6] = out[4] + tip * Math.cos(angle);
  out[7] = out[5] - tip * Math.sin(angle);
}

/**
 * Rotation that flexes a joint, the same for both hands: -deg about +X, where -Z points along the bone to the
 * tip and +Y out of the back of the hand (axes of WebXR Hand Input and XrHandJointEXT).
 * @param out receives x, y, z, w
 */
export function flexionQuaternion(deg: number, out: Float64Array): void {
  const half = (deg * RAD) / 2;
  out[0] = -Math.sin(half);
  out[1] = 0;
  out[2] = 0;
  out[3] = Math.cos(half);
}
