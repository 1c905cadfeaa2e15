import type { Finger, Rig } from '../../rig/rig.ts';
import { fullExcursionMm } from '../../string/excursion.ts';
import { jointArmMm } from '../../string/joint-arm.ts';

/**
 * String that full closure draws on a hand of another size. Measured joints grow with the hand while the guides keep
 * their height; moment arms that were stated grow as a whole.
 * @param size 1 = the published mean
 * @returns mm
 */
export function strokeMm(rig: Rig, finger: Finger, size: number): number {
  if (!finger.joints) return fullExcursionMm(finger, 0) * size;
  const { circumferencesMm, guideHeightMm } = finger.joints;
  const grown = size / rig.hand.scale;
  const arm = (joint: 0 | 1 | 2) => jointArmMm(circumferencesMm[joint] * grown, guideHeightMm);
  return fullExcursionMm({ name: finger.name, momentArmsMm: [arm(0), arm(1), arm(2)] }, 0);
}

/** Arm of the string about the knuckle that opens the hand: MCP, of the thumb too; mm on this hand. */
export function knuckleArmMm(rig: Rig, finger: Finger): number {
  return finger.momentArmsMm[finger.name === 'thumb' ? 1 : 0] * rig.hand.scale;
}
