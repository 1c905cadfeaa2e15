import { FINGER_NAMES, type FingerName } from '../rig/rig.ts';
import type { JointIndex } from './ranges.ts';

/**
 * Flexion of MCP, PIP, DIP at closure 1, deg. MCP and PIP are the AAOS ends; DIP is 2/3 of PIP, a coupling
 * from memory of Rijpkema & Girard 1991. Real coupling depends on the task (assumed).
 */
export const FULL_FLEXION_DEG: readonly [number, number, number] = [90, 100, 200 / 3];

/**
 * Flexion of the thumb's CMC, MCP, IP at closure 1, deg: the AAOS ends of flexion. That all three arrive
 * together is assumed; abduction (70 deg) is left out because the string does not follow it.
 */
export const FULL_THUMB_FLEXION_DEG: readonly [number, number, number] = [15, 50, 80];

/**
 * Flexion of one finger joint. One string cannot tell the joints apart, so the pose is a model of a single
 * variable: all joints bend in proportion.
 * @param closure 0 open, 1 closed; values outside go on in proportion, `clampJointDeg` sets the limit
 * @returns deg
 */
export function flexionDeg(closure: number, joint: JointIndex): number {
  return closure * FULL_FLEXION_DEG[joint];
}

/** Flexion of one thumb joint (CMC, MCP, IP), deg; see `flexionDeg`. */
export function thumbFlexionDeg(closure: number, joint: JointIndex): number {
  return closure * FULL_THUMB_FLEXION_DEG[joint];
}

/** The joint angles that closure 1 stands for on this finger, deg. */
export function fullFlexionDeg(finger: FingerName): readonly [number, number, number] {
  return finger === FINGER_NAMES[0] ? FULL_THUMB_FLEXION_DEG : FULL_FLEXION_DEG;
}

/** Turn of the base joint (MCP) over full closure, deg: what a share of closure is as an angle. */
export function baseJointDeg(finger: FingerName): number {
  return finger === FINGER_NAMES[0] ? FULL_THUMB_FLEXION_DEG[1] : FULL_FLEXION_DEG[0];
}
