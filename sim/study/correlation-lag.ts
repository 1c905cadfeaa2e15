import { correlationAt } from './stats/correlation.ts';
import type { Trace } from './trace-types.ts';

const LONGEST_LAG_FRAMES = 60;

/** Correlations at the delay before, at and after the one asked for. */
const around = new Float64Array(3);

/**
 * Delay of the output behind the truth over the grasps: climbs from a guess to the best correlation, then refines
 * by a parabola.
 * @param guess frames; any number
 * @returns frames
 */
export function correlationLag(closure: Float64Array, trace: Trace, guess: number): number {
  const { truth } = trace;
  const { grasps } = trace.windows;
  const from = grasps[0].from;
  const to = grasps[grasps.length - 1].to;
  const longest = Math.min(LONGEST_LAG_FRAMES, trace.frames - to - 1);
  let shift = Math.max(0, Math.min(longest, Math.round(guess)));
  fillAround(truth, closure, from, to, shift, around);
  let [down, here, up] = around;
  while (up > here && shift < longest - 1) {
    shift++;
    down = here;
    here = up;
    up = correlationAt(truth, closure, from, to, shift + 1);
  }
  while (down > here && shift > 0) {
    shift--;
    up = here;
    here = down;
    down = correlationAt(truth, closure, from, to, shift - 1);
  }
  const bend = up - 2 * here + down;
  return bend < 0 ? shift + (down - up) / (2 * bend) : shift;
}

/**
 * Same values as `correlationAt` for shift - 1, shift and shift + 1 but for rounding, in one pass: the three
 * stretches of output differ in their first and last sample only.
 */
function fillAround(
  truth: Float64Array,
  output: Float64Array,
  from: number,
  to: number,
  shift: number,
  out: Float64Array,
): void {
  // Sums about the first sample of each, as in correlationAt.
  const t0 = truth[from];
  const o0 = output[from + shift];
  const count = to - from;
  const first = output[from + shift - 1] - o0;
  let before = first;
  let here = 0;
  let t1 = 0;
  let t2 = 0;
  let o1 = 0;
  let o2 = 0;
  let crossBefore = 0;
  let crossHere = 0;
  let crossAfter = 0;
  for (let i = from; i < to; i++) {
    const t = truth[i] - t0;
    const after = output[i + shift + 1] - o0;
    t1 += t;
    t2 += t * t;
    o1 += here;
    o2 += here * here;
    crossBefore += t * before;
    crossHere += t * here;
    crossAfter += t * after;
    before = here;
    here = after;
  }
  // Now `before` is the last sample of the middle stretch, `here` the one after it.
  const truthSquares = t2 - (t1 * t1) / count;
  const o1Before = o1 + first - before;
  const o2Before = o2 + first * first - before * before;
  const o1After = o1 + here;
  const o2After = o2 + here * here;
  out[0] =
    (crossBefore - (t1 * o1Before) / count) /
    Math.sqrt(truthSquares * (o2Before - (o1Before * o1Before) / count));
  out[1] = (crossHere - (t1 * o1) / count) / Math.sqrt(truthSquares * (o2 - (o1 * o1) / count));
  out[2] =
    (crossAfter - (t1 * o1After) / count) / Math.sqrt(truthSquares * (o2After - (o1After * o1After) / count));
}
