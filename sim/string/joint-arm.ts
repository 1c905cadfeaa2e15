/**
 * Distance of a string from a joint's axis, mm: the joint taken as round, the string on guides above the skin.
 * @param circumferenceMm round the joint, on the skin
 * @param guideHeightMm from the skin to the string, the same at all joints
 */
export function jointArmMm(circumferenceMm: number, guideHeightMm: number): number {
  return circumferenceMm / (2 * Math.PI) + guideHeightMm;
}
