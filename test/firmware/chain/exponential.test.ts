import { describe, expect, it } from 'vitest';
import { exponentialGain, smoothingGain } from '../../../firmware/chain/constants.ts';
import { exponential } from '../../../firmware/chain/exponential.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';

const PERIOD_S = 0.01;

/** Output for each input, starting at 0. */
function run(inputs: number[], gain: number): number[] {
  let level = 0;
  return inputs.map((input) => {
    level = exponential(level, input - level, gain);
    return level;
  });
}

function impulseResponse(gain: number, length: number): number[] {
  return run(
    Array.from({ length }, (_, i) => (i === 0 ? 1 : 0)),
    gain,
  );
}

describe('exponential low-pass', () => {
  it('answers a pulse with gain·(1 − gain)^n', () => {
    // Powers of two: exact in binary.
    expect(impulseResponse(0.25, 5)).toEqual([0.25, 0.1875, 0.140625, 0.10546875, 0.0791015625]);
  });

  // −b + sqrt(b² + 2b), b = 1 − cos(2π·cutoff·period), computed with Python.
  it.each([
    [1, 0.060879],
    [5, 0.267731],
    [10, 0.455887],
  ])(
    'at 100 Hz takes for a cut-off of %d Hz the gain %d and then halves the power there',
    (cutoffHz, expected) => {
      const gain = exponentialGain(cutoffHz, PERIOD_S);
      expect(Math.abs(gain - expected)).toBeLessThan(5e-7);
      // Measured from the pulse response, not from the formula of the gain.
      const response = impulseResponse(gain, 4000);
      let re = 0;
      let im = 0;
      let sum = 0;
      let moment = 0;
      let squares = 0;
      response.forEach((h, n) => {
        re += h * Math.cos(2 * Math.PI * cutoffHz * PERIOD_S * n);
        im += h * Math.sin(2 * Math.PI * cutoffHz * PERIOD_S * n);
        sum += h;
        moment += n * h;
        squares += h * h;
      });
      expect(Math.abs(10 * Math.log10(re * re + im * im) + 3.0103)).toBeLessThan(0.001);
      expect(sum).toBeCloseTo(1, 10);
      expect(moment).toBeCloseTo((1 - expected) / expected, 3);
      expect(squares).toBeCloseTo(expected / (2 - expected), 5);
    },
  );

  it('climbs a step without ever falling or passing it', () => {
    const climb = run(new Array(200).fill(1), exponentialGain(3, PERIOD_S));
    for (let i = 1; i < climb.length; i++) expect(climb[i]).toBeGreaterThanOrEqual(climb[i - 1]);
    expect(climb[199]).toBeLessThanOrEqual(1);
    expect(climb[199]).toBeGreaterThan(0.999999);
  });

  it('leaves gain/(2 − gain) of the variance of white noise: 1/9 for gain 0.2', () => {
    const [k0, k1] = keys(1, 5, 0);
    const output = run(
      Array.from({ length: 100_000 }, (_, i) => gaussAt(i, k0, k1)),
      0.2,
    );
    const variance = output.reduce((total, y) => total + y * y, 0) / output.length;
    // Scatter of the estimate about 1 %.
    expect(Math.abs(variance * 9 - 1)).toBeLessThan(0.04);
  });

  it('lets everything through for a cut-off at or above half the frame rate', () => {
    expect(exponentialGain(50, PERIOD_S)).toBe(1);
    expect(exponentialGain(49.9, PERIOD_S)).toBeLessThan(1);
    expect(run([3, -2, 7], 1)).toEqual([3, -2, 7]);
  });
});

describe('smoothingGain', () => {
  // 1 / (1 + 1 / (2π·cutoff·period)), computed with Python.
  it.each([
    [1, 0.059117],
    [5, 0.239057],
    [10, 0.38587],
  ])('of %d Hz at 100 Hz is %d', (cutoffHz, expected) => {
    expect(Math.abs(smoothingGain(cutoffHz, PERIOD_S) - expected)).toBeLessThan(5e-7);
  });
});
