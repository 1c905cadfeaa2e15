/** Joint along a string: 0, 1, 2 = MCP, PIP, DIP of a finger, or CMC, MCP, IP of the thumb. */
export type JointIndex = 0 | 1 | 2;

/** Slack around the published ranges, deg: published tables differ by up to 10 deg (assumed). */
export const RANGE_GRACE_DEG = 10;

/** Largest flexion of the finger joints, deg: AAOS ranges of motion. */
export const FINGER_FLEXION_DEG: readonly [number, number, number] = [90, 100, 90];

/** Largest extension beyond straight, deg: AAOS ranges of motion. */
export const FINGER_EXTENSION_DEG: readonly [number, number, number] = [45, 0, 0];

/** Largest flexion of the thumb joints, deg: AAOS ranges of motion. */
export const THUMB_FLEXION_DEG: readonly [number, number, number] = [15, 50, 80];

/** Largest extension of the thumb joints, deg: AAOS; none is listed for the thumb's MCP, taken as 0. */
export const THUMB_EXTENSION_DEG: readonly [number, number, number] = [20, 0, 20];

/** Largest abduction of the thumb's CMC joint, deg: AAOS. The string model does not use it. */
export const THUMB_ABDUCTION_DEG = 70;

/**
 * Brings any number into the joint's range plus grace; never rejects.
 * @param thumb whether `joint` counts along the thumb
 * @param deg flexion > 0, extension < 0; a value that is not a number becomes 0 (straight)
 */
export function clampJointDeg(thumb: boolean, joint: JointIndex, deg: number): number {
  if (Number.isNaN(deg)) return 0;
  const most = (thumb ? THUMB_FLEXION_DEG[joint] : FINGER_FLEXION_DEG[joint]) + RANGE_GRACE_DEG;
  const least = -(thumb ? THUMB_EXTENSION_DEG[joint] : FINGER_EXTENSION_DEG[joint]) - RANGE_GRACE_DEG;
  return deg > most ? most : deg < least ? least : deg;
}
