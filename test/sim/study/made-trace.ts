import type { Settings } from '../../../firmware/chain/settings.ts';
import { createEvaluator } from '../../../sim/study/evaluate.ts';
import { METRIC, METRICS } from '../../../sim/study/metrics.ts';
import { closureAt, fillClosure, type Motion } from '../../../sim/study/motion.ts';
import { OVERSAMPLINGS } from '../../../sim/study/plan.ts';
import { STANDARD_LENGTH_S, standardMotion } from '../../../sim/study/standard-motion.ts';
import { TABLE_LENGTH, type Trace } from '../../../sim/study/trace-types.ts';
import { type Windows, windowsOf } from '../../../sim/study/windows.ts';

/** Ends of every trace made here. */
const ENDS = { open: 0.2, closed: 0.7 };

export const NO_WINDOWS: Windows = { rest: [], open: [], closed: [], slow: [], grasps: [], spikes: [] };

/** Sum of `oversampling` readings at a closure, for the ends of these traces. */
export function readingOf(closure: number, oversampling: number): number {
  return oversampling * (ENDS.open + closure * (ENDS.closed - ENDS.open));
}

/**
 * A trace written by hand: the finger's channel gives exactly these closures. The words 6553 and 58982 are
 * closure 0 and 1, and the host's line goes on beyond them, so that nothing is cut off.
 */
export function madeTrace(closure: ArrayLike<number>, parts: Partial<Trace> = {}): Trace {
  const frames = closure.length;
  return {
    frames,
    periodS: 0.01,
    readings: OVERSAMPLINGS.map((n) =>
      Float64Array.from({ length: frames }, (_, f) => readingOf(closure[f], n)),
    ),
    truth: Float64Array.from(closure),
    ends: ENDS,
    closureTable: Float64Array.from({ length: TABLE_LENGTH }, (_, i) => (16 * i - 6553) / 52429),
    windows: NO_WINDOWS,
    deadShare: 0,
    gestureHalf: 0.05,
    ...parts,
  };
}

/** The standard motion without variation: truth, windows and closure at any frame, fractions included. */
export function standardScene(frameRateHz = 100) {
  const motion: Motion = standardMotion(() => 0);
  const periodS = 1 / frameRateHz;
  const frames = Math.floor(STANDARD_LENGTH_S * frameRateHz + 1e-9);
  const truth = new Float64Array(frames);
  fillClosure(motion, periodS, truth);
  return {
    motion,
    periodS,
    frames,
    truth,
    windows: windowsOf(motion, periodS, frames),
    /** Frame f is sampled at (f + 1)·period. */
    at: (frame: number) => closureAt(motion, (frame + 1) * periodS),
  };
}

export type Scores = Record<keyof typeof METRIC, number>;

/** Scores of some settings on a trace, by name. */
export function scoresOf(trace: Trace, ...settings: Settings[]): Scores[] {
  const rows = new Float64Array(settings.length * METRICS);
  createEvaluator(settings, trace.frames).scoreAll(trace, rows);
  return settings.map((_, s) => {
    const scores = {} as Scores;
    for (const name of Object.keys(METRIC) as (keyof typeof METRIC)[]) {
      scores[name] = rows[s * METRICS + METRIC[name]];
    }
    return scores;
  });
}
