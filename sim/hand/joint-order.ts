/** Joint names in the order of the W3C WebXR Hand Input draft: 25, wrist first. */
export const WEBXR_JOINTS = [
  'wrist',
  'thumb-metacarpal',
  'thumb-phalanx-proximal',
  'thumb-phalanx-distal',
  'thumb-tip',
  'index-finger-metacarpal',
  'index-finger-phalanx-proximal',
  'index-finger-phalanx-intermediate',
  'index-finger-phalanx-distal',
  'index-finger-tip',
  'middle-finger-metacarpal',
  'middle-finger-phalanx-proximal',
  'middle-finger-phalanx-intermediate',
  'middle-finger-phalanx-distal',
  'middle-finger-tip',
  'ring-finger-metacarpal',
  'ring-finger-phalanx-proximal',
  'ring-finger-phalanx-intermediate',
  'ring-finger-phalanx-distal',
  'ring-finger-tip',
  'pinky-finger-metacarpal',
  'pinky-finger-phalanx-proximal',
  'pinky-finger-phalanx-intermediate',
  'pinky-finger-phalanx-distal',
  'pinky-finger-tip',
] as const;
export type WebxrJoint = (typeof WEBXR_JOINTS)[number];

/** Joint names in the order of Khronos XrHandJointEXT: 26, palm first (prefix and suffix left out). */
export const OPENXR_JOINTS = [
  'PALM',
  'WRIST',
  'THUMB_METACARPAL',
  'THUMB_PROXIMAL',
  'THUMB_DISTAL',
  'THUMB_TIP',
  'INDEX_METACARPAL',
  'INDEX_PROXIMAL',
  'INDEX_INTERMEDIATE',
  'INDEX_DISTAL',
  'INDEX_TIP',
  'MIDDLE_METACARPAL',
  'MIDDLE_PROXIMAL',
  'MIDDLE_INTERMEDIATE',
  'MIDDLE_DISTAL',
  'MIDDLE_TIP',
  'RING_METACARPAL',
  'RING_PROXIMAL',
  'RING_INTERMEDIATE',
  'RING_DISTAL',
  'RING_TIP',
  'LITTLE_METACARPAL',
  'LITTLE_PROXIMAL',
  'LITTLE_INTERMEDIATE',
  'LITTLE_DISTAL',
  'LITTLE_TIP',
] as const;
export type OpenxrJoint = (typeof OPENXR_JOINTS)[number];

/**
 * Place of an OpenXR joint in the WebXR list.
 * @param openxr 0-25
 * @returns openxr - 1; -1 for the palm, which WebXR does not have
 */
export function webxrOfOpenxr(openxr: number): number {
  return openxr - 1;
}
