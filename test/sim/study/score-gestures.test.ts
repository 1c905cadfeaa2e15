import { describe, expect, it } from 'vitest';
import { nextToggle, toggleDwell } from '../../../firmware/gesture/toggle.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';
import { createEvaluator } from '../../../sim/study/evaluate.ts';
import { plain } from './any-settings.ts';
import { madeTrace, NO_WINDOWS, scoresOf } from './made-trace.ts';

const FRAMES = process.env.TAUTLINE_VERIFY === '1' ? 1_000_000 : 120_000;
const SD = 0.03;
const HOUR_FRAMES = 360_000;

const [K0, K1] = keys(3, 3, 0);
const noisy = Float64Array.from({ length: FRAMES }, (_, f) => 0.5 + SD * gaussAt(f, K0, K1));

/** Not looked at here, but every motion has one. */
const A_GRASP = {
  ...NO_WINDOWS,
  grasps: [{ from: 10, to: 40, middleFrame: 20, middle: 0.5, direction: 1, arrival: 30 }],
};

/** Toggles of the board's own gesture on these closures. */
function countToggles(closure: Float64Array, half: number): number {
  let on = 0;
  let held = 0;
  let toggles = 0;
  for (const value of closure) {
    held = toggleDwell(held, on, value, 0.5 + half, 0.5 - half, 0);
    const next = nextToggle(on, held, 0);
    if (next !== on) toggles++;
    on = next;
  }
  return toggles;
}

describe('false gestures', () => {
  it.each([1, 1.5, 2, 2.5])(
    'of white noise with thresholds at ± %d sd are those that the gesture counts',
    (h) => {
      const half = h * SD;
      const windows = { ...A_GRASP, rest: [{ from: 0, to: FRAMES }] };
      const trace = madeTrace(noisy, { windows, gestureHalf: half });
      const [{ falsePerHour }] = scoresOf(trace, plain());
      const toggles = countToggles(noisy, half);
      expect(toggles).toBeGreaterThan(500);
      // The formula is exact for white noise; a count scatters by less than its root.
      const ratio = (toggles * HOUR_FRAMES) / FRAMES / falsePerHour;
      expect(Math.abs(ratio - 1)).toBeLessThan(4 / Math.sqrt(toggles) + 0.01);
    },
  );

  it.each([
    // Lag-1 correlation 1 − a: 0.73 at 5 Hz, 0.35 at 15 Hz. The counted share of the formula falls from 0.90 at
    // 0.3 through 0.77 at 0.6 to 0.48 at 0.9 for thresholds at 1 sd, from 0.95 through 0.87 to 0.60 at 2 sd.
    [5, 1, 0.6, 0.76],
    [5, 2, 0.74, 0.88],
    [15, 1, 0.82, 0.92],
    [15, 2, 0.89, 0.98],
  ])(
    'of noise after an average of %d Hz, thresholds at ± %d sd: %d to %d of them are counted',
    (cutoffHz, h, low, high) => {
      const chain = plain({ lowPass: { kind: 'exponential', cutoffHz } });
      const windows = { ...A_GRASP, rest: [{ from: 100, to: FRAMES }] };
      const trace = madeTrace(noisy, { windows });
      const [{ jitter }] = scoresOf(trace, chain);
      const half = h * jitter;
      const [{ falsePerHour }] = scoresOf({ ...trace, gestureHalf: half }, chain);
      const output = createEvaluator([chain], FRAMES).closures(trace, 0).subarray(100);
      const ratio = (countToggles(output, half) * HOUR_FRAMES) / output.length / falsePerHour;
      expect(ratio).toBeGreaterThan(low);
      expect(ratio).toBeLessThan(high);
    },
  );

  it.each([1, 2, 4])(
    'of %d rare spikes in ten seconds are half of them: the others push the way it is already',
    (spikes) => {
      const output = Float64Array.from({ length: 1000 }, (_, f) => 0.5 + 0.0005 * gaussAt(f, K0, K1));
      // Three wrong frames in a row break through once; up and down in turn.
      for (let s = 0; s < spikes; s++) {
        for (let f = 0; f < 3; f++) output[100 + 200 * s + f] += s % 2 === 0 ? 0.06 : -0.06;
      }
      const windows = { ...A_GRASP, rest: [{ from: 0, to: 1000 }] };
      const [{ falsePerHour }] = scoresOf(madeTrace(output, { windows }), plain());
      expect(falsePerHour).toBeCloseTo((spikes / 2 / 1000) * HOUR_FRAMES, 6);
    },
  );

  it('are none for quiet noise far from the thresholds', () => {
    const output = Float64Array.from({ length: 1000 }, (_, f) => 0.5 + 0.001 * gaussAt(f, K0, K1));
    const windows = { ...A_GRASP, rest: [{ from: 0, to: 1000 }] };
    expect(scoresOf(madeTrace(output, { windows }), plain())[0].falsePerHour).toBe(0);
  });
});
