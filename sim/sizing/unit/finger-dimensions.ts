import { phalanges } from '../../hand/phalanges.ts';
import type { Finger, FingerName, Rig } from '../../rig/rig.ts';
import { LEAST_WALL_MM, SLIDE_MM, WALL_MM } from './print-rules.ts';

/** A ring on a finger segment, open on the palm side, mm. The hole's middle is as far above the segment's axis as the string must be. */
export interface RingDimensions {
  innerRadiusMm: number;
  wallMm: number;
  /** Along the finger. */
  lengthMm: number;
  /** Part of the circle that stays open. */
  openDeg: number;
  holeRadiusMm: number;
  /** The hole widens to this at both ends, at 45 deg. */
  mouthRadiusMm: number;
  holeAtMm: number;
  towerHalfMm: number;
  /** Bevel of the edges that touch the skin. */
  bevelMm: number;
  /** Moment arm that the rig asks for, and the joint it belongs to: 0-2 along the string. */
  askedMm: number;
  joint: 0 | 1 | 2;
}

/** The ring of the last segment, closed over the nail's end by a half disc that takes the string's pull. */
export interface CapDimensions extends RingDimensions {
  endMm: number;
}

export interface FingerDimensions {
  name: FingerName;
  /** From the knuckle to the fingertip. */
  rings: { segment: 'proximal' | 'middle'; ring: RingDimensions }[];
  cap: CapDimensions;
}

/** Circumferences of PIP and DIP of the index, mm (Greiner 1991, second-hand); the knuckle's has none: assumed. */
const INDEX_PIP_MM = 68.4;
const INDEX_DIP_MM = 57.4;
/** Thickness of the fingers against the index. Assumed. */
const THICKNESS: Readonly<Record<FingerName, number>> = {
  thumb: 1.1,
  index: 1,
  middle: 1,
  ring: 0.95,
  little: 0.85,
};
/** Segments are thinner than the joints beside them. Assumed. */
const WAIST = 0.9;
const OPEN_DEG = 120;
const BEVEL_MM = 0.4;
const CAP_SHARE = 0.75;

/**
 * Guide rings and fingertip cap of one finger. Every ring carries the string for the joint before it, so the ring
 * behind the knuckle (PIP: of the segment before) sets that joint's moment arm while the finger is straight.
 */
export function fingerDimensions(rig: Rig, finger: Finger): FingerDimensions {
  const { scale } = rig.hand;
  const radii = segmentRadiiMm(finger, scale);
  const bones = phalanges(finger.name, scale);
  const arm = (joint: 0 | 1 | 2) => finger.momentArmsMm[joint] * scale;
  const ring = (radiusMm: number, lengthMm: number, joint: 0 | 1 | 2) =>
    ringDimensions(radiusMm, lengthMm, finger.stringDiameterMm, arm(joint), joint);
  const rings: FingerDimensions['rings'] =
    finger.name === 'thumb'
      ? [{ segment: 'proximal', ring: ring(radii[0], 8, 1) }]
      : [
          { segment: 'proximal', ring: ring(radii[0], 8, 0) },
          { segment: 'middle', ring: ring(radii[1], 6, 1) },
        ];
  const capMm = CAP_SHARE * (bones.distalMm + bones.softTipMm);
  return {
    name: finger.name,
    rings,
    cap: { ...ring(radii[2], Math.round(capMm * 10) / 10, 2), endMm: WALL_MM },
  };
}

/** Radii of the segments after each joint, from the measured joints where the rig has them. */
function segmentRadiiMm(finger: Finger, scale: number): [number, number, number] {
  const usual = scale * THICKNESS[finger.name];
  const [nearMm, farMm] = finger.joints
    ? [finger.joints.circumferencesMm[1], finger.joints.circumferencesMm[2]]
    : [INDEX_PIP_MM * usual, INDEX_DIP_MM * usual];
  const waist = (circumferenceMm: number) => (WAIST * circumferenceMm) / (2 * Math.PI);
  return [waist(nearMm), waist((nearMm + farMm) / 2), waist(farMm)];
}

function ringDimensions(
  segmentRadiusMm: number,
  lengthMm: number,
  threadMm: number,
  askedMm: number,
  joint: 0 | 1 | 2,
): RingDimensions {
  const innerRadiusMm = segmentRadiusMm + SLIDE_MM;
  const holeRadiusMm = Math.max(0.6, threadMm / 2 + 0.4);
  const mouthRadiusMm = holeRadiusMm + 0.3;
  return {
    innerRadiusMm,
    wallMm: WALL_MM,
    lengthMm,
    openDeg: OPEN_DEG,
    holeRadiusMm,
    mouthRadiusMm,
    holeAtMm: Math.max(askedMm, innerRadiusMm + BEVEL_MM + LEAST_WALL_MM + mouthRadiusMm),
    towerHalfMm: mouthRadiusMm + LEAST_WALL_MM,
    bevelMm: BEVEL_MM,
    askedMm,
    joint,
  };
}
