import { saturate, toWord } from '../../firmware/chain/calibrate.ts';
import { drag, jump } from '../../firmware/chain/hysteresis.ts';
import { correlationLag } from './correlation-lag.ts';
import { METRIC } from './metrics.ts';
import { toggleRate, togglesPerHour } from './stats/toggle-rate.ts';
import { TABLE_STEP_BITS, type Trace } from './trace-types.ts';
import type { Grasp, Span } from './windows.ts';

/** Output farther than this from its value before a spike counts as disturbed, closure. */
const RECOVERED_CLOSURE = 0.02;
/** Grasps that end inside this range are scored for overshoot; at the ends the stop hides it. */
const SETTLED_FRAMES = 5;

/**
 * The hold stage over one smoothed output.
 * @param at index of the lane's first frame in `smoothed`
 * @param hold 1 drag, 2 jump
 * @param half half the hold's width, reading units
 * @param held filled: held level at each frame
 */
export function fillHeld(
  smoothed: Float64Array,
  at: number,
  frames: number,
  hold: number,
  half: number,
  held: Float64Array,
): void {
  let value = smoothed[at];
  if (hold === 1) {
    for (let f = 0; f < frames; f++) {
      value = drag(value, smoothed[at + f], half);
      held[f] = value;
    }
  } else {
    for (let f = 0; f < frames; f++) {
      value = jump(value, smoothed[at + f], half);
      held[f] = value;
    }
  }
}

/**
 * Word and host calibration of one output, and its mean square error in the same pass.
 * @param levels held levels
 * @param at index of the first frame in `levels`
 * @param closure filled: closure at each frame
 * @returns mean of (closure − truth)²
 */
export function fillClosures(
  levels: Float64Array,
  at: number,
  gain: number,
  offset: number,
  trace: Trace,
  closure: Float64Array,
): number {
  const { closureTable: table, frames, truth } = trace;
  // Two sums, so that neither has to wait for the other: the additions are the longest chain of the loop.
  let even = 0;
  let odd = 0;
  const pairs = frames & ~1;
  for (let f = 0; f < pairs; f += 2) {
    const a = closureOfLevel(levels[at + f], gain, offset, table);
    closure[f] = a;
    const errorA = a - truth[f];
    even += errorA * errorA;
    const b = closureOfLevel(levels[at + f + 1], gain, offset, table);
    closure[f + 1] = b;
    const errorB = b - truth[f + 1];
    odd += errorB * errorB;
  }
  if (pairs < frames) {
    const last = closureOfLevel(levels[at + pairs], gain, offset, table);
    closure[pairs] = last;
    even += (last - truth[pairs]) * (last - truth[pairs]);
  }
  return (even + odd) / frames;
}

/** One level through the board's word and the host's table. */
function closureOfLevel(level: number, gain: number, offset: number, table: Float64Array): number {
  // Bitwise or: the board's store into 16 bits drops the fraction. Dropped before the limits, which are whole, it
  // gives the same word, and comparing integers is quicker. (With ends at least 40 counts apart, |word| < 2^23.)
  const word = saturate(toWord(level, gain, offset) | 0);
  const cell = word >> TABLE_STEP_BITS;
  const low = table[cell];
  return low + (table[cell + 1] - low) * ((word & 15) * 0.0625);
}

/**
 * Scores closures against the truth; the square error comes from `fillClosures`.
 * @param row filled from `at` on with the METRICS numbers
 */
export function scoreClosures(closure: Float64Array, trace: Trace, row: Float64Array, at: number): void {
  const { windows, truth } = trace;
  scoreRest(closure, trace, row, at);
  const lag = crossingLag(closure, windows.grasps);
  row[at + METRIC.lag] = lag;
  row[at + METRIC.lagCorrelation] = correlationLag(closure, trace, lag);
  row[at + METRIC.overshoot] = overshoot(closure, windows.grasps);
  row[at + METRIC.endMiss] = Math.max(trace.deadShare, endMiss(closure, windows.open, windows.closed));
  row[at + METRIC.step] = slowStep(closure, truth, windows.slow);
  row[at + METRIC.recovery] = recovery(closure, windows.spikes);
}

function scoreRest(closure: Float64Array, trace: Trace, row: Float64Array, at: number): void {
  const half = trace.gestureHalf;
  let squares = 0;
  let products = 0;
  let count = 0;
  let breakThroughs = 0;
  for (const { from, to } of trace.windows.rest) {
    // About a straight line: what a slow filter still creeps at the start of a rest is no jitter.
    const middle = (from + to - 1) / 2;
    let sum = 0;
    let moment = 0;
    for (let f = from; f < to; f++) {
      sum += closure[f];
      moment += closure[f] * (f - middle);
    }
    const length = to - from;
    const mean = sum / length;
    const slope = (12 * moment) / (length * (length * length - 1));
    let before = 0;
    for (let f = from; f < to; f++) {
      const rest = closure[f] - mean - slope * (f - middle);
      squares += rest * rest;
      products += rest * before;
      if (Math.abs(rest) > half && Math.abs(before) <= half) breakThroughs++;
      before = rest;
    }
    count += length;
  }
  const sd = Math.sqrt(squares / count);
  row[at + METRIC.jitter] = sd;
  const frameRateHz = 1 / trace.periodS;
  const expected = sd > 0 ? togglesPerHour(toggleRate(half, sd, products / squares, 0), frameRateHz) : 0;
  // Half of them: the gesture is on or off, and only a break-through to the other side toggles it.
  const counted = togglesPerHour(breakThroughs / 2 / count, frameRateHz);
  row[at + METRIC.falsePerHour] = Math.max(expected, counted);
}

function crossingLag(closure: Float64Array, grasps: Grasp[]): number {
  let sum = 0;
  for (const { from, to, middle, middleFrame, direction } of grasps) {
    let f = from;
    while (f < to && direction * (closure[f] - middle) < 0) f++;
    let crossing = f;
    if (f > from && f < to) crossing -= (closure[f] - middle) / (closure[f] - closure[f - 1]);
    sum += crossing - middleFrame;
  }
  return sum / grasps.length;
}

function meanOf(closure: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let f = from; f < to; f++) sum += closure[f];
  return sum / (to - from);
}

function overshoot(closure: Float64Array, grasps: Grasp[]): number {
  let worst = 0;
  for (const { arrival, to, direction } of grasps) {
    const settled = meanOf(closure, to - SETTLED_FRAMES, to);
    for (let f = arrival; f < to; f++) {
      const beyond = direction * (closure[f] - settled);
      if (beyond > worst) worst = beyond;
    }
  }
  return worst;
}

function endMiss(closure: Float64Array, open: Span[], closed: Span[]): number {
  let worst = 0;
  for (const { from, to } of open) worst = Math.max(worst, meanOf(closure, from, to));
  for (const { from, to } of closed) worst = Math.max(worst, 1 - meanOf(closure, from, to));
  return worst;
}

/** Largest jumps kept for the 99th percentile; enough for 6,000 frames of slow motion. */
const largest = new Float64Array(64);

function slowStep(closure: Float64Array, truth: Float64Array, slow: Span[]): number {
  let count = 0;
  for (const { from, to } of slow) count += to - from - 1;
  const kept = Math.min(largest.length, Math.floor(count * 0.01) + 1);
  largest.fill(0);
  for (const { from, to } of slow) {
    for (let f = from + 1; f < to; f++) {
      const step = Math.abs(closure[f] - closure[f - 1] - (truth[f] - truth[f - 1]));
      if (step <= largest[kept - 1]) continue;
      let place = kept - 1;
      while (place > 0 && largest[place - 1] < step) {
        largest[place] = largest[place - 1];
        place--;
      }
      largest[place] = step;
    }
  }
  return largest[kept - 1];
}

function recovery(closure: Float64Array, spikes: Span[]): number {
  let worst = 0;
  for (const { from, to } of spikes) {
    const before = meanOf(closure, from - SETTLED_FRAMES, from);
    let last = from - 1;
    for (let f = from; f < to; f++) if (Math.abs(closure[f] - before) > RECOVERED_CLOSURE) last = f;
    worst = Math.max(worst, last - from + 1);
  }
  return worst;
}
