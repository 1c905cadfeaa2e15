import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newFingerState, putWord, startFinger, stepFinger } from '../../../firmware/chain/finger.ts';
import { prepare } from '../../../firmware/chain/prepare.ts';
import type { Settings } from '../../../firmware/chain/settings.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys, uniformAt } from '../../../sim/seed/mix.ts';
import { createEvaluator } from '../../../sim/study/evaluate.ts';
import { METRIC, METRICS } from '../../../sim/study/metrics.ts';
import { OVERSAMPLINGS } from '../../../sim/study/plan.ts';
import { TABLE_LENGTH, type Trace } from '../../../sim/study/trace-types.ts';
import { anySettings } from './any-settings.ts';
import { madeTrace } from './made-trace.ts';

const RUNS = process.env.TAUTLINE_VERIFY === '1' ? 2000 : 120;
const FRAMES = 160;
const FULL_SCALE = 4095 / 4096;

/** Moves, rests, noise and spikes to both ends of the scale; every oversampling has its own. */
function wildTrace(seed: number, open: number, closed: number): Trace {
  const readings = OVERSAMPLINGS.map((n, i) => {
    const [k0, k1] = keys(i, seed, 0);
    let place = uniformAt(0, k0, k1);
    return Float64Array.from({ length: FRAMES }, (_, f) => {
      const u = uniformAt(1000 + f, k0, k1);
      if (u < 0.05) place = uniformAt(2000 + f, k0, k1);
      const wrong = u > 0.97 ? (u > 0.985 ? 1 : -1) : 0;
      const mean = open + place * (closed - open) + 0.002 * gaussAt(f, k0, k1) + wrong;
      return n * Math.min(FULL_SCALE, Math.max(0, mean));
    });
  });
  const [k0, k1] = keys(99, seed, 0);
  // Any rising table will do: the mapping is what is compared.
  let sum = 0;
  const steps = Float64Array.from({ length: TABLE_LENGTH }, (_, i) => {
    sum += uniformAt(i, k0, k1);
    return sum;
  });
  return madeTrace(new Float64Array(FRAMES), {
    readings,
    ends: { open, closed },
    closureTable: steps.map((s) => s / sum),
    truth: Float64Array.from({ length: FRAMES }, (_, i) => uniformAt(TABLE_LENGTH + i, k0, k1)),
    windows: {
      rest: [{ from: 10, to: 60 }],
      open: [{ from: 5, to: 20 }],
      closed: [{ from: 25, to: 40 }],
      slow: [{ from: 30, to: 90 }],
      grasps: [{ from: 60, to: 90, middleFrame: 70, middle: 0.5, direction: 1, arrival: 80 }],
      spikes: [{ from: 40, to: 60 }],
    },
  });
}

/** The board's way: one finger, frame by frame, words stored in 16 bits; then the host's table. */
function boardClosures(settings: Settings, trace: Trace): Float64Array {
  const constants = prepare(settings, trace.periodS, trace.ends);
  const readings = trace.readings[OVERSAMPLINGS.indexOf(settings.oversampling)];
  const state = newFingerState();
  const store = new Uint16Array(1);
  return Float64Array.from(readings, (reading, f) => {
    if (f === 0) startFinger(state, reading);
    else stepFinger(state, reading, constants);
    putWord(store, 0, state, constants);
    const cell = Math.floor(store[0] / 16);
    const low = trace.closureTable[cell];
    return low + (trace.closureTable[cell + 1] - low) * ((store[0] - 16 * cell) / 16);
  });
}

/** First index at which two arrays differ in any bit; -1 = none. */
function firstDifference(a: Float64Array, b: Float64Array): number {
  for (let i = 0; i < Math.max(a.length, b.length); i++) if (!Object.is(a[i], b[i])) return i;
  return -1;
}

const ends = fc.constantFrom<[number, number]>([0.1, 0.48], [0.48, 0.1], [0, 1], [0.6, 0.58]);
const list = fc.array(anySettings, { minLength: 1, maxLength: 24 });

describe('sweep of many settings', () => {
  it("gives every setting the closures of the board's chain, to the bit", () => {
    fc.assert(
      fc.property(fc.integer(), ends, list, (seed, [open, closed], settings) => {
        const trace = wildTrace(seed, open, closed);
        const evaluator = createEvaluator(settings, FRAMES);
        const rows = new Float64Array(settings.length * METRICS);
        evaluator.scoreAll(trace, rows);
        settings.forEach((s, index) => {
          const board = boardClosures(s, trace);
          expect(firstDifference(evaluator.closures(trace, index), board)).toBe(-1);
          const squares = board.reduce((sum, value, f) => sum + (value - trace.truth[f]) ** 2, 0);
          expect(rows[index * METRICS + METRIC.squareError]).toBeCloseTo(squares / FRAMES, 12);
        });
      }),
      { numRuns: RUNS },
    );
  });

  it('gives a setting the same scores whatever else is in the list, and in whatever order', () => {
    fc.assert(
      fc.property(
        fc.integer(),
        ends,
        list,
        fc.infiniteStream(fc.nat()),
        (seed, [open, closed], settings, picks) => {
          const trace = wildTrace(seed, open, closed);
          const together = new Float64Array(settings.length * METRICS);
          createEvaluator(settings, FRAMES).scoreAll(trace, together);
          // Some of them, in another order.
          const order = settings.map((_, i) => i).filter(() => picks.next().value % 3 > 0);
          order.sort((a, b) => ((a * 7919 + seed) & 63) - ((b * 7919 + seed) & 63));
          const some = new Float64Array(order.length * METRICS);
          const evaluator = createEvaluator(
            order.map((i) => settings[i]),
            FRAMES,
          );
          evaluator.scoreAll(trace, some);
          order.forEach((i, place) => {
            const here = some.subarray(place * METRICS, (place + 1) * METRICS);
            const there = together.subarray(i * METRICS, (i + 1) * METRICS);
            expect(firstDifference(here, there)).toBe(-1);
          });
        },
      ),
      { numRuns: RUNS },
    );
  });

  it('leaves nothing of one trace behind for the next', () => {
    fc.assert(
      fc.property(fc.integer(), list, (seed, settings) => {
        const first = wildTrace(seed, 0.1, 0.48);
        const second = wildTrace(seed + 1, 0.9, 0.3);
        const fresh = new Float64Array(settings.length * METRICS);
        createEvaluator(settings, FRAMES).scoreAll(second, fresh);
        const used = new Float64Array(settings.length * METRICS);
        const evaluator = createEvaluator(settings, FRAMES);
        evaluator.scoreAll(first, used);
        evaluator.scoreAll(second, used);
        expect(firstDifference(used, fresh)).toBe(-1);
        // A trace whose arrays were written over is a new trace.
        evaluator.scoreAll(first, used);
        first.readings.forEach((values, i) => {
          values.set(second.readings[i]);
        });
        evaluator.scoreAll({ ...second, readings: first.readings }, used);
        expect(firstDifference(used, fresh)).toBe(-1);
      }),
      { numRuns: RUNS / 4 },
    );
  });

  it('refuses to show settings that are not in the list', () => {
    const trace = wildTrace(1, 0.1, 0.5);
    expect(() => createEvaluator([], FRAMES).closures(trace, 0)).toThrow(/index 0/);
  });
});
