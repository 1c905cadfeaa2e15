import type { Ends } from '../../firmware/chain/word-scale.ts';
import type { Windows } from './windows.ts';

/**
 * Longest world step, s. The fastest grasp curves by 712 closures/s² (90 ms, minimum jerk), so a straight line
 * over 2.5 ms is never further off than 0.06 % of closure.
 */
const LONGEST_STEP_S = 0.0025;

/** World steps per frame: the mechanics and the wiring are followed this finely. */
export function stepsPerFrame(frameRateHz: number): number {
  return Math.max(1, Math.ceil(1 / (frameRateHz * LONGEST_STEP_S) - 1e-9));
}

/** Entries of `closureTable`: one for every 16 words, and one more. */
export const TABLE_STEP_BITS = 4;
export const TABLE_LENGTH = (65536 >> TABLE_STEP_BITS) + 1;

/**
 * What one finger's channel gives over one scenario, with the truth beside it. Made once per scenario and
 * seed and shared by all settings.
 */
export interface Trace {
  frames: number;
  periodS: number;
  /** readings[oversampling index][frame]: sum of the frame's readings, each counts / 4096. */
  readings: Float64Array[];
  /** True closure at each frame, tremor left out: it is movement that nobody wants smoothed away or kept. */
  truth: Float64Array;
  ends: Ends;
  /** Closure for words 0, 16, 32, ...: the host's calibration, linear in between. */
  closureTable: Float64Array;
  windows: Windows;
  /** Share of the travel over which the reading does not change: dead ends, stops, a saturated ADC. */
  deadShare: number;
  /** Half the distance of the gesture's thresholds, closure. */
  gestureHalf: number;
}
