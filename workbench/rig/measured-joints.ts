import type { Finger, MeasuredJoints } from '../../sim/rig/rig.ts';
import { jointArmMm } from '../../sim/string/joint-arm.ts';
import type { FingerBlock } from './finger-schema.ts';

/**
 * Moment arms from circumferences. They were measured on the rig's own hand, and everything that follows multiplies
 * the arms by the size of the hand: so the arms are those of a hand of size 1.
 */
export function layJoints(finger: Finger, block: FingerBlock, handScale: number): void {
  if (block.momentArms) delete finger.joints;
  if (!block.joints) return;
  const { circumferences, guideHeight } = block.joints;
  const joints: MeasuredJoints = {
    circumferencesMm: [circumferences[0]!, circumferences[1]!, circumferences[2]!],
    guideHeightMm: guideHeight,
  };
  const [near, middle, far] = joints.circumferencesMm.map((mm) => jointArmMm(mm, guideHeight) / handScale);
  finger.momentArmsMm = [near!, middle!, far!];
  finger.joints = joints;
}

/** The shaft's backlash as a part of the play: half of what the string moves while the shaft stands still. */
export function addBacklash(finger: Finger, backlashDeg: number | undefined): void {
  if (!backlashDeg) return;
  finger.backlashDeg = backlashDeg;
  finger.playMm += (0.5 * backlashDeg * finger.spoolRadiusMm * Math.PI) / 180;
}
