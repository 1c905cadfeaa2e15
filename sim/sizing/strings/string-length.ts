import { phalanges } from '../../hand/phalanges.ts';
import type { Finger } from '../../rig/rig.ts';
import { SAFETY_TURNS } from '../../spool/groove.ts';

/** From the wrist's end of the hand to the spool, mm. Assumed: a spool just behind the wrist. */
const WRIST_TO_SPOOL_MM = 50;
/** String that goes into a knot at either end, mm. Assumed. */
const KNOT_MM = 30;

/** The string of one finger, all mm. */
export interface StringLength {
  /** From the fingertip over the straight finger and the back of the hand to the spool. */
  pathMm: number;
  /** What full closure draws off the spool. */
  strokeMm: number;
  /** Turns that never leave the spool. */
  safetyMm: number;
  knotsMm: number;
  /** What to cut: the sum, rounded up to a whole centimetre. */
  cutMm: number;
}

/** @param size the largest hand, 1 = the published mean; bones as `phalanges` has them */
export function stringLength(finger: Finger, strokeMm: number, size: number): StringLength {
  const bones = phalanges(finger.name, size);
  const pathMm =
    bones.metacarpalMm +
    bones.proximalMm +
    bones.middleMm +
    bones.distalMm +
    bones.softTipMm +
    WRIST_TO_SPOOL_MM;
  const safetyMm = SAFETY_TURNS * 2 * Math.PI * finger.spoolRadiusMm;
  const knotsMm = 2 * KNOT_MM;
  const cutMm = 10 * Math.ceil((pathMm + strokeMm + safetyMm + knotsMm) / 10);
  return { pathMm, strokeMm, safetyMm, knotsMm, cutMm };
}
