import { describe, expect, it } from 'vitest';
import { gaussAt } from '../../../../sim/seed/gauss.ts';
import { keys } from '../../../../sim/seed/mix.ts';
import { toggleRate, togglesPerHour, upCrossings } from '../../../../sim/study/stats/toggle-rate.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';

// SciPy 1.17.1: 2 * owens_t(h, sqrt((1 - r) / (1 + r))); the first six agree with its bivariate normal
// distribution function, P(X < h) - P(X < h, Y < h), to 1e-13.
const CROSSINGS: [level: number, lag1: number, probability: number][] = [
  [0, 0.5, 0.166666666666667],
  [1, 0.3, 0.113197405415853],
  [1, 0.9, 0.0431649165030988],
  [2, 0.6, 0.017250155971043],
  [2, -0.4, 0.0227339285201949],
  [-1.5, 0.4, 0.05226518652765964],
  [3, 0.9, 0.0007394936463263162],
  [3, -0.8, 0.0013498980316301],
  [4.5, 0.7, 3.23171486635842e-6],
  [6, 0.95, 6.667260693797993e-10],
  [8, 0.2, 6.220960574030188e-16],
  [8.5, -0.9, 9.479534822203384e-18],
];

describe('upCrossings', () => {
  it.each(CROSSINGS)('of %d sd at correlation %d agrees with SciPy', (level, lag1, probability) => {
    expect(Math.abs(upCrossings(level, lag1) / probability - 1)).toBeLessThan(1e-10);
  });

  it('agrees with direct quadrature of the orthant integral over its angle', () => {
    // (1/2π)·∫ exp(−a²/(1 + sin θ)) dθ from asin ρ to π/2, by Simpson's rule: the form before substitution.
    for (const [a, lag1] of [
      [1, 0],
      [2.3, 0.4],
      [3, 0.8],
      [1.5, -0.5],
    ]) {
      const from = Math.asin(lag1);
      const n = 4000;
      const step = (Math.PI / 2 - from) / n;
      let sum = 0;
      for (let i = 0; i <= n; i++) {
        const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
        sum += weight * Math.exp(-(a * a) / (1 + Math.sin(from + i * step)));
      }
      expect(upCrossings(a, lag1)).toBeCloseTo((sum * step) / 3 / (2 * Math.PI), 12);
    }
  });
});

describe('toggleRate', () => {
  // Q(h/σ), computed with mpmath; exact for white noise.
  it.each([
    [1, 0.158655253931457],
    [2, 0.02275013194817921],
    [3, 0.00134989803163009],
    [5, 2.866515718791939e-7],
    [8.5, 9.479534822203318e-18],
  ])('of white noise at half-width %d sd is the tail probability', (h, q) => {
    expect(Math.abs(toggleRate(h * 3.7, 3.7, 0, 0) / q - 1)).toBeLessThan(1e-9);
  });

  it('off the middle is 2·p1·p2/(p1 + p2) of the two tail probabilities', () => {
    const near = 0.06680720126885807; // Q(1.5)
    const far = 0.006209665325776135; // Q(2.5)
    const expected = (2 * near * far) / (near + far);
    expect(toggleRate(2, 1, 0, 0.5)).toBeCloseTo(expected, 12);
    expect(toggleRate(2, 1, 0, -0.5)).toBe(toggleRate(2, 1, 0, 0.5));
  });

  it('falls with correlation, to nothing at full correlation', () => {
    let last = 1;
    for (const lag1 of [0, 0.3, 0.6, 0.9, 0.99, 0.9999, 1]) {
      const rate = toggleRate(2, 1, lag1, 0.2);
      expect(rate).toBeLessThan(last);
      last = rate;
    }
    expect(last).toBe(0);
    // Small spacing: up-crossings go as acos(ρ) / 2π · exp(−a²/2), Rice's rule for a sequence.
    const lag1 = 1 - 1e-8;
    const rice = (Math.acos(lag1) / (2 * Math.PI)) * Math.exp(-2);
    expect(toggleRate(2, 1, lag1, 0) / (rice / 0.9772498680518208)).toBeCloseTo(1, 5);
  });

  it('is 0 without noise and beyond 9 sd, and NaN for a NaN', () => {
    expect(toggleRate(0.5, 0, 0, 0)).toBe(0);
    expect(toggleRate(9.01, 1, 0.2, 0)).toBe(0);
    expect(toggleRate(5, 1, 0.2, 4.1)).toBe(0);
    expect(toggleRate(8.99, 1, 0.2, 0)).toBeGreaterThan(0);
    for (const at of [0, 1, 2, 3]) {
      const args: [number, number, number, number] = [1, 1, 0.1, 0.1];
      args[at] = Number.NaN;
      expect(toggleRate(...args)).toBeNaN();
    }
  });

  it('gives 4 Hz of samples at 1 in 100 as 144 toggles an hour', () => {
    expect(togglesPerHour(0.01, 4)).toBeCloseTo(144, 10);
  });
});

/** Counts toggles of a trigger on noise with sd 1 where each sample keeps the share `lag1` of the last. */
function countToggles(half: number, lag1: number, offset: number, samples: number): number {
  const [k0, k1] = keys(7, 20_250_131, 0);
  const fresh = Math.sqrt(1 - lag1 * lag1);
  let x = gaussAt(0, k0, k1);
  let on = false;
  let count = 0;
  for (let i = 1; i <= samples; i++) {
    x = lag1 * x + fresh * gaussAt(i, k0, k1);
    const value = x + offset;
    if (on ? value < -half : value > half) {
      on = !on;
      count++;
    }
  }
  return count / samples;
}

describe('toggleRate against counted toggles', () => {
  const samples = LONG ? 3_000_000 : 400_000;
  // The limits are those of the table in the doc comment, from another random generator and 10^7 samples,
  // with room for the scatter of fewer samples (about 1.5 sd of 1/sqrt(count) at the rarest: 3 %).
  it.each([
    [1, 0, 0, 0.998],
    [2, 0, 0, 0.999],
    [1, 0.3, 0, 0.901],
    [2, 0.3, 0, 0.955],
    [1, 0.6, 0, 0.765],
    [2, 0.6, 0, 0.872],
    [1, 0.9, 0, 0.48],
    [2, 0.9, 0, 0.595],
    [1, -0.6, 0, 1.194],
    [2, -0.6, 0, 1.182],
    [1.5, 0, 0.5, 1.003],
    [1.5, 0.6, 0.5, 0.852],
  ])(
    'half-width %d sd, correlation %d, offset %d: count is %d of the formula',
    (half, lag1, offset, ratio) => {
      const measured = countToggles(half, lag1, offset, samples) / toggleRate(half, 1, lag1, offset);
      expect(measured / ratio).toBeGreaterThan(LONG ? 0.98 : 0.95);
      expect(measured / ratio).toBeLessThan(LONG ? 1.02 : 1.05);
    },
  );
});
