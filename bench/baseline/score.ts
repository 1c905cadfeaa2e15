import type { METRIC } from '../../sim/study/metrics.ts';
import { toggleRate, togglesPerHour } from '../../sim/study/stats/toggle-rate.ts';
import type { Grasp, Span } from '../../sim/study/windows.ts';
import type { Scenario } from './scenario.ts';

/** In the units of METRIC. */
export type BaselineScores = Record<keyof typeof METRIC, number>;

const LONGEST_LAG_FRAMES = 60;
const SETTLED_FRAMES = 5;
const RECOVERED_CLOSURE = 0.02;

/** Scores of the closures of a whole trace. */
export function scoreOutput(closures: number[], truth: number[], scenario: Scenario): BaselineScores {
  const { windows, rig, periodS } = scenario;
  const gestureHalf = (rig.gesture.onClosure - rig.gesture.offClosure) / 2;
  const rests = windows.rest.map((span) => aboutLine(cut(closures, span)));
  const all = rests.flat();
  const jitter = Math.sqrt(sum(all.map((v) => v * v)) / all.length);
  return {
    jitter,
    lag: mean(windows.grasps.map((grasp) => crossing(closures, grasp) - grasp.middleFrame)),
    lagCorrelation: correlationLag(closures, truth, windows.grasps),
    squareError: mean(closures.map((c, f) => (c - truth[f]) ** 2)),
    overshoot: Math.max(0, ...windows.grasps.map((grasp) => overshoot(closures, grasp))),
    endMiss: Math.max(
      scenario.deadShare,
      0,
      ...windows.open.map((span) => mean(cut(closures, span))),
      ...windows.closed.map((span) => 1 - mean(cut(closures, span))),
    ),
    step: slowStep(closures, truth, windows.slow),
    falsePerHour: falseRate(rests, jitter, gestureHalf, 1 / periodS),
    recovery: Math.max(0, ...windows.spikes.map((span) => recovery(closures, span))),
  };
}

function sum(values: number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function mean(values: number[]): number {
  return sum(values) / values.length;
}

function cut<T>(values: T[], { from, to }: Span): T[] {
  return values.slice(from, to);
}

/** Values about the straight line that fits them best. */
function aboutLine(values: number[]): number[] {
  const level = mean(values);
  const places = values.map((_, i) => i - (values.length - 1) / 2);
  const slope = sum(values.map((v, i) => v * places[i])) / sum(places.map((p) => p * p));
  return values.map((value, i) => value - level - slope * places[i]);
}

/** Frame, with its fraction, at which the output crosses half of the grasp. */
function crossing(closures: number[], { from, to, middle, direction }: Grasp): number {
  const at = closures.findIndex((c, f) => f >= from && direction * (c - middle) >= 0);
  if (at === -1 || at >= to) return to;
  if (at === from) return from;
  return at - (closures[at] - middle) / (closures[at] - closures[at - 1]);
}

/** Correlation at every delay, the best one refined by a parabola. */
function correlationLag(closures: number[], truth: number[], grasps: Grasp[]): number {
  const from = grasps[0].from;
  const to = grasps[grasps.length - 1].to;
  const wanted = truth.slice(from, to);
  const longest = Math.min(LONGEST_LAG_FRAMES, closures.length - to - 1);
  const values: number[] = [];
  for (let shift = -1; shift <= longest; shift++) {
    values.push(correlation(wanted, closures.slice(from + shift, to + shift)));
  }
  let best = 1;
  for (let i = 1; i < values.length - 1; i++) if (values[i] > values[best]) best = i;
  const [down, here, up] = values.slice(best - 1, best + 2);
  const bend = up - 2 * here + down;
  return best - 1 + (bend < 0 ? (down - up) / (2 * bend) : 0);
}

function correlation(a: number[], b: number[]): number {
  const meanA = mean(a);
  const meanB = mean(b);
  let products = 0;
  let squaresA = 0;
  let squaresB = 0;
  for (let i = 0; i < a.length; i++) {
    products += (a[i] - meanA) * (b[i] - meanB);
    squaresA += (a[i] - meanA) ** 2;
    squaresB += (b[i] - meanB) ** 2;
  }
  return products / Math.sqrt(squaresA * squaresB);
}

function overshoot(closures: number[], { arrival, to, direction }: Grasp): number {
  const settled = mean(closures.slice(to - SETTLED_FRAMES, to));
  return Math.max(...closures.slice(arrival, to).map((c) => direction * (c - settled)));
}

/** 99th percentile of the jumps beyond the true motion. */
function slowStep(closures: number[], truth: number[], spans: Span[]): number {
  const steps = spans.flatMap(({ from, to }) =>
    Array.from({ length: to - from - 1 }, (_, i) => {
      const f = from + 1 + i;
      return Math.abs(closures[f] - closures[f - 1] - (truth[f] - truth[f - 1]));
    }),
  );
  steps.sort((a, b) => b - a);
  return steps[Math.floor(steps.length * 0.01)];
}

/** Expected toggles from the noise's size and correlation, or those counted where single jumps break through. */
function falseRate(rests: number[][], jitter: number, half: number, frameRateHz: number): number {
  const all = rests.flat();
  const products = sum(rests.map((rest) => sum(rest.slice(1).map((v, i) => v * rest[i]))));
  const lag1 = products / sum(all.map((v) => v * v));
  const breaks = sum(
    rests.map(
      (rest) => rest.filter((v, i) => Math.abs(v) > half && Math.abs(i > 0 ? rest[i - 1] : 0) <= half).length,
    ),
  );
  const expected = jitter > 0 ? togglesPerHour(toggleRate(half, jitter, lag1, 0), frameRateHz) : 0;
  return Math.max(expected, togglesPerHour(breaks / 2 / all.length, frameRateHz));
}

/** Frames for which the wrong frame keeps the output off. */
function recovery(closures: number[], { from, to }: Span): number {
  const before = mean(closures.slice(from - SETTLED_FRAMES, from));
  const off = closures.slice(from, to).map((c) => Math.abs(c - before) > RECOVERED_CLOSURE);
  return off.lastIndexOf(true) + 1;
}
