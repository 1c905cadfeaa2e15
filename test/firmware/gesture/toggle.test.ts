import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dwellFrames } from '../../../firmware/gesture/dwell-frames.ts';
import { nextToggle, toggleDwell } from '../../../firmware/gesture/toggle.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';

/** States after each value, starting off. */
function run(values: number[], onAbove: number, offBelow: number, dwell: number): number[] {
  let held = 0;
  let on = 0;
  return values.map((value) => {
    held = toggleDwell(held, on, value, onAbove, offBelow, dwell);
    on = nextToggle(on, held, dwell);
    return on;
  });
}

describe('gesture toggle', () => {
  it('goes on above the upper threshold and off below the lower one, and holds on both thresholds', () => {
    expect(run([0.5, 0.6, 0.61, 0.5, 0.4, 0.39, 0.5, 0.6], 0.6, 0.4, 0)).toEqual([0, 0, 1, 1, 1, 0, 0, 0]);
  });

  it('waits for the dwell after the first frame beyond, and starts again after a frame within', () => {
    expect(run([1, 1, 0.5, 1, 1, 1, 1], 0.6, 0.4, 2)).toEqual([0, 0, 0, 0, 0, 1, 1]);
    expect(run([1, 1, 1, 0, 0, 0.5, 0, 0, 0, 0], 0.6, 0.4, 2)).toEqual([0, 0, 1, 1, 1, 1, 1, 1, 0, 0]);
  });

  it('waits as long for the way back as for the way there', () => {
    expect(run([1, 1, 1, 0, 0, 0, 1, 1, 1], 0.5, 0.5, 2)).toEqual([0, 0, 1, 1, 1, 0, 0, 0, 1]);
  });

  it('does not move on values that are not numbers', () => {
    expect(run([Number.NaN, 1, Number.NaN, Number.NaN, 0], 0.6, 0.4, 0)).toEqual([0, 1, 1, 1, 0]);
  });

  it('never flips while the value stays inside the band', () => {
    const inside = fc.array(fc.double({ min: 0.4, max: 0.6, noNaN: true }), { minLength: 1, maxLength: 50 });
    fc.assert(
      fc.property(inside, fc.constantFrom(0, 1), fc.integer({ min: 0, max: 3 }), (values, start, dwell) => {
        const states = run([start, start, start, start, ...values], 0.6, 0.4, dwell).slice(3);
        expect(new Set(states)).toEqual(new Set([start]));
      }),
    );
  });

  // Q(h/σ) per sample: the chance of a normal draw beyond the far threshold. Tail values of the normal
  // distribution from mpmath. The scatter of the count is 1/sqrt(count): 0.25, 0.7 and 2.7 % of 10^6 samples.
  it.each([
    [1, 0.158655254, 0.03],
    [2, 0.0227501319, 0.03],
    [3, 0.00134989803, LONG ? 0.03 : 0.1],
  ])('toggles on white noise of 1/%d of the half-width with chance %d a sample', (half, q, tolerance) => {
    const samples = LONG && half === 3 ? 10_000_000 : 1_000_000;
    expect(Math.abs(share(samples, half, 0, 1) / q - 1)).toBeLessThan(tolerance);
  });

  it('toggles off the middle with chance 2·p1·p2/(p1 + p2), p = Q((h ∓ d)/σ)', () => {
    const near = 0.0668072013; // Q(1.5)
    const far = 0.00620966533; // Q(2.5)
    const expected = (2 * near * far) / (near + far);
    expect(Math.abs(share(1_000_000, 2, 0.5, 1) / expected - 1)).toBeLessThan(0.03);
  });

  it('with a dwell of one frame needs two draws in a row: (1 + p)/p² samples a toggle', () => {
    // Mean wait for a run of two in independent trials: 1/p + 1/p² (Feller, vol. 1, XIII.7).
    const p = 0.158655254;
    expect(Math.abs((share(1_000_000, 1, 0, 1, 1) * (1 + p)) / (p * p) - 1)).toBeLessThan(0.03);
  });
});

/** Toggles per sample on white noise round `centre`. */
function share(samples: number, half: number, centre: number, sd: number, dwell = 0): number {
  const [k0, k1] = keys(3, 4711, 0);
  let held = 0;
  let on = 0;
  let count = 0;
  for (let i = 0; i < samples; i++) {
    held = toggleDwell(held, on, centre + sd * gaussAt(i, k0, k1), half, -half, dwell);
    const next = nextToggle(on, held, dwell);
    if (next !== on) count++;
    on = next;
  }
  return count / samples;
}

describe('dwellFrames', () => {
  it.each([
    [0, 100, 0],
    [30, 100, 3],
    [31, 100, 4],
    [70, 100, 7],
    [1, 100, 1],
    [50, 90, 5],
  ])('%d ms at %d Hz are %i frames', (dwellMs, rateHz, frames) => {
    expect(dwellFrames(dwellMs, rateHz)).toBe(frames);
  });
});
