import type { Phalanges } from './phalanges.ts';

const RAD = Math.PI / 180;

/** A joint with the arc on which the string passes over it. Forward and up in mm, angles in rad from forward to down. */
export interface JointArc {
  forwardMm: number;
  upMm: number;
  armMm: number;
  /** Direction of the bone before and behind the joint. */
  fromRad: number;
  toRad: number;
}

/**
 * Where the string of a bent finger runs: over each joint on an arc as wide as its moment arm, straight between.
 * @param flexionDeg of the three joints
 * @returns the joints from the hand to the tip, then the end of the flesh
 */
export function stringPath(
  bonesMm: readonly [number, number, number],
  flexionDeg: readonly number[],
  momentArmsMm: readonly number[],
): { joints: JointArc[]; tip: { forwardMm: number; upMm: number; towardsRad: number } } {
  const joints: JointArc[] = [];
  let [forwardMm, upMm, rad] = [0, 0, 0];
  bonesMm.forEach((boneMm, index) => {
    const toRad = rad + flexionDeg[index]! * RAD;
    joints.push({ forwardMm, upMm, armMm: momentArmsMm[index]!, fromRad: rad, toRad });
    forwardMm += boneMm * Math.cos(toRad);
    upMm -= boneMm * Math.sin(toRad);
    rad = toRad;
  });
  return { joints, tip: { forwardMm, upMm, towardsRad: rad } };
}

/** The three bones that a string passes, the last with the flesh of the tip, mm. */
export function bonesOnString(bones: Phalanges): [number, number, number] {
  const { metacarpalMm, proximalMm, middleMm, distalMm, softTipMm } = bones;
  // The thumb has no middle phalanx: its string begins a joint nearer to the wrist.
  return middleMm === 0
    ? [metacarpalMm, proximalMm, distalMm + softTipMm]
    : [proximalMm, middleMm, distalMm + softTipMm];
}
