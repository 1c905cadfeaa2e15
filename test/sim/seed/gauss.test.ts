import { describe, expect, it } from 'vitest';
import { fillGauss, gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';

const [k0, k1] = keys(1, 0, 0);
const n = 200_000;
const sample = new Float64Array(n);
fillGauss(sample, 0, k0, k1);

/** Normal distribution function, error below 7.5e-8 (Abramowitz and Stegun 26.2.17). */
function normalCdf(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI)) * poly;
  return x > 0 ? 1 - tail : tail;
}

describe('gauss', () => {
  // Reference values of the generator, computed in a separate implementation.
  it('gives the reference numbers', () => {
    expect(gaussAt(0, k0, k1)).toBeCloseTo(0.527045997701536, 14);
    expect(gaussAt(1, k0, k1)).toBeCloseTo(1.087256465078307, 14);
    expect(gaussAt(2, k0, k1)).toBeCloseTo(-1.137528976615798, 14);
  });

  // Numbers that need extra draws, from a separate implementation in Python (w: accepted under the curve's
  // edge, r: rejected and drawn again, t: beyond the outermost layer, tt: there at the second attempt).
  it.each([
    ['w', 39, -0.15055471939361012],
    ['w', 221, 1.428624981349935],
    ['r', 98, 1.4865262916771274],
    ['r', 145, -0.1384463222209919],
    ['rw', 21481, -0.0394899710996586],
    ['rr', 32512, 0.8487658836193945],
    ['t', 484, -3.804822420094262],
    ['t', 990, 3.6827229096489353],
    ['tt', 244028, 4.018552091905926],
    ['tt', 330092, -3.7493112492516927],
  ])('settles the rare case %s of counter %i as the reference does', (_, counter, value) => {
    expect(gaussAt(counter, k0, k1)).toBeCloseTo(value, 12);
  });

  it('follows the normal distribution (Kolmogorov-Smirnov, 1 % limit 1.63)', () => {
    const sorted = sample.slice().sort();
    let distance = 0;
    for (let i = 0; i < n; i++) {
      const p = normalCdf(sorted[i]);
      distance = Math.max(distance, (i + 1) / n - p, p - i / n);
    }
    expect(distance * Math.sqrt(n)).toBeLessThan(1.63);
  });

  it('has mean 0, variance 1, skewness 0, kurtosis 3 within four standard errors', () => {
    const moment = (power: number) => sample.reduce((sum, x) => sum + x ** power, 0) / n;
    expect(Math.abs(moment(1))).toBeLessThan(4 * Math.sqrt(1 / n));
    expect(Math.abs(moment(2) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    expect(Math.abs(moment(3))).toBeLessThan(4 * Math.sqrt(15 / n));
    expect(Math.abs(moment(4) - 3)).toBeLessThan(4 * Math.sqrt(96 / n));
  });

  it('has the normal share of numbers beyond the outermost layer, on both sides', () => {
    const m = 2_000_000;
    const chunk = new Float64Array(50_000);
    let above = 0;
    let below = 0;
    for (let first = 0; first < m; first += chunk.length) {
      fillGauss(chunk, first, k1, k0);
      for (let i = 0; i < chunk.length; i++) {
        if (chunk[i] > 3.6541528853610088) above++;
        else if (chunk[i] < -3.6541528853610088) below++;
      }
    }
    // upper tail of the normal distribution there: 1.29016e-4 (SciPy), so 258 ± 16
    const expected = 1.29016e-4 * m;
    expect(Math.abs(above - expected)).toBeLessThan(4 * Math.sqrt(expected));
    expect(Math.abs(below - expected)).toBeLessThan(4 * Math.sqrt(expected));
  });

  it('gives neighbouring numbers no correlation', () => {
    for (const lag of [1, 2, 32, 256]) {
      let sum = 0;
      for (let i = lag; i < n; i++) sum += sample[i] * sample[i - lag];
      expect(Math.abs(sum / (n - lag)), `lag ${lag}`).toBeLessThan(4 / Math.sqrt(n));
    }
  });

  it('gives the same number alone, in any order, in any chunk', () => {
    let different = 0;
    for (let i = n - 1; i >= 0; i--) if (gaussAt(i, k0, k1) !== sample[i]) different++;
    expect(different).toBe(0);
    const chunk = new Float64Array(777);
    fillGauss(chunk, 12_345, k0, k1);
    expect(chunk).toEqual(sample.slice(12_345, 12_345 + 777));
  });

  it('fills single precision with the same numbers, rounded', () => {
    const single = new Float32Array(5000);
    fillGauss(single, 100, k0, k1);
    expect(single).toEqual(Float32Array.from(sample.subarray(100, 5100)));
  });
});
