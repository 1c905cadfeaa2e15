import fc from 'fast-check';
import { sampleCorrelation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { gaussAt } from '../../../../sim/seed/gauss.ts';
import {
  correlationAt,
  lag1Correlation,
  lagByCrossCorrelation,
} from '../../../../sim/study/stats/correlation.ts';

/** Minimum-jerk movement from 0 to 1 over samples 40 to 70: 10τ³ − 15τ⁴ + 6τ⁵. */
function grasp(t: number): number {
  const tau = Math.min(1, Math.max(0, (t - 40) / 30));
  return tau * tau * tau * (10 - 15 * tau + 6 * tau * tau);
}

describe('lag1Correlation', () => {
  it('agrees with NumPy on a wave over a ramp', () => {
    const x = Array.from({ length: 40 }, (_, i) => Math.sin(i * 0.7) + 0.1 * i);
    expect(lag1Correlation(x, 0, 40)).toBeCloseTo(0.8560930814577028, 12);
    expect(lag1Correlation([99, ...x, 99], 1, 41)).toBeCloseTo(0.8560930814577028, 12);
  });

  it('finds the coefficient of first-order noise', () => {
    const x = new Float64Array(20_000);
    for (let i = 1; i < x.length; i++) x[i] = 0.6 * x[i - 1] + gaussAt(i, 1, 2);
    // sd of the estimate sqrt((1 − 0.36)/20000) = 0.0057.
    expect(Math.abs(lag1Correlation(x, 0, x.length) - 0.6)).toBeLessThan(0.02);
  });

  it('is NaN for samples that do not vary', () => {
    expect(lag1Correlation([4, 4, 4, 4], 0, 4)).toBeNaN();
  });
});

describe('correlationAt', () => {
  it('agrees with simple-statistics at any shift', () => {
    const numbers = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 20, maxLength: 20 });
    fc.assert(
      fc.property(numbers, numbers, fc.integer({ min: -2, max: 5 }), (a, b, shift) => {
        const truth = a.slice(3, 14);
        const output = b.slice(3 + shift, 14 + shift);
        fc.pre(new Set(truth).size > 1 && new Set(output).size > 1);
        expect(correlationAt(a, b, 3, 14, shift)).toBeCloseTo(sampleCorrelation(truth, output), 9);
      }),
    );
  });

  it('keeps its precision far from zero', () => {
    const a = Array.from({ length: 50 }, (_, i) => 1e9 + Math.sin(i));
    const b = Array.from({ length: 50 }, (_, i) => -1e9 + Math.sin(i));
    expect(correlationAt(a, b, 0, 50, 0)).toBeCloseTo(1, 5);
  });
});

describe('lagByCrossCorrelation', () => {
  it.each([0, 0.25, 1, 3.4, 7.5, 11.8])('finds a delay of %d samples to a fiftieth of a sample', (delay) => {
    const truth = Float64Array.from({ length: 150 }, (_, i) => grasp(i));
    const output = Float64Array.from({ length: 150 }, (_, i) => 30 + 0.7 * grasp(i - delay));
    expect(Math.abs(lagByCrossCorrelation(truth, output, 10, 120, 20) - delay)).toBeLessThan(0.02);
  });

  it('finds the delay of a filter: a mean of the last 9 samples lags by 4', () => {
    const truth = Float64Array.from({ length: 150 }, (_, i) => grasp(i));
    const output = truth.map((_, i) => {
      let sum = 0;
      for (let k = 0; k < 9; k++) sum += grasp(i - k);
      return sum / 9;
    });
    expect(Math.abs(lagByCrossCorrelation(truth, output, 10, 120, 20) - 4)).toBeLessThan(0.05);
  });

  it('is NaN when nothing moves and refuses a stretch that does not fit', () => {
    const flat = new Float64Array(100).fill(3);
    const moving = Float64Array.from({ length: 100 }, (_, i) => grasp(i));
    expect(lagByCrossCorrelation(moving, flat, 1, 80, 10)).toBeNaN();
    expect(lagByCrossCorrelation(flat, moving, 1, 80, 10)).toBeNaN();
    expect(() => lagByCrossCorrelation(moving, moving, 0, 80, 10)).toThrow(/expected from >= 1/);
    expect(() => lagByCrossCorrelation(moving, moving, 1, 90, 10)).toThrow(RangeError);
    expect(() => lagByCrossCorrelation(moving, moving, 1, 89, 10)).not.toThrow();
  });
});
