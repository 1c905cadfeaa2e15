import { MNM_PER_GF_CM } from '../spool/force.ts';

/** Torque that turns a common 9 mm carbon potentiometer, mN·m: 10-100 gf·cm (PTV09 datasheet). */
export const RATED_DRAG_MNM: readonly [least: number, most: number] = [
  10 * MNM_PER_GF_CM,
  100 * MNM_PER_GF_CM,
];

/** How much stiffer than the stated drag a single part may turn. Assumed. */
export const DRAG_SPREAD = 1.3;
