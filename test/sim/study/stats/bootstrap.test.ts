import { describe, expect, it } from 'vitest';
import { gaussAt } from '../../../../sim/seed/gauss.ts';
import { keys } from '../../../../sim/seed/mix.ts';
import { bootstrap, bootstrapPairedDifference, mean } from '../../../../sim/study/stats/bootstrap.ts';
import { quantile } from '../../../../sim/study/stats/quantile.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';
const ONE_TO_TEN = Float64Array.from([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
const KEYS = { k0: 11, k1: 22 };

function normals(count: number, stream: number): Float64Array {
  const [k0, k1] = keys(stream, 77, 0);
  return Float64Array.from({ length: count }, (_, i) => gaussAt(i, k0, k1));
}

describe('bootstrap', () => {
  it('of the mean of 1 to 10 has the standard error sqrt(Σ(x − m)²)/n = 0.90830 and an interval near 3.7 to 7.3', () => {
    const result = bootstrap(ONE_TO_TEN, mean, { ...KEYS, resamples: 20_000 });
    expect(result.estimate).toBe(5.5);
    expect(Math.abs(result.standardError / 0.9083 - 1)).toBeLessThan(0.02);
    expect(Math.abs(result.low - 3.7)).toBeLessThan(0.15);
    expect(Math.abs(result.high - 7.3)).toBeLessThan(0.15);
    // Values are drawn from both ends of the list: the mean of the resampled means is the mean.
    expect(Math.abs((result.low + result.high) / 2 - 5.5)).toBeLessThan(0.1);
  });

  it('with 2000 resamples unless told otherwise repeats bit by bit for the same keys, and differs for others', () => {
    const first = bootstrap(ONE_TO_TEN, mean, KEYS);
    expect(bootstrap(ONE_TO_TEN, mean, { ...KEYS, resamples: 2000, level: 0.95 })).toEqual(first);
    expect(bootstrap(ONE_TO_TEN, mean, { k0: 12, k1: 22 })).not.toEqual(first);
  });

  it('covers the true mean of 30 normal values in 90 to 97 % of cases', () => {
    const cases = LONG ? 2000 : 400;
    let covered = 0;
    for (let c = 0; c < cases; c++) {
      const [k0, k1] = keys(c, 77, 1);
      const { low, high } = bootstrap(normals(30, c), mean, { k0, k1, resamples: 600 });
      if (low <= 0 && high >= 0) covered++;
    }
    expect(covered / cases).toBeGreaterThanOrEqual(0.9);
    expect(covered / cases).toBeLessThanOrEqual(0.97);
  });

  it('takes any statistic: the median of 400 normal values has a standard error near sqrt(π/2/n) = 0.0627', () => {
    const result = bootstrap(normals(400, 3), (sample) => quantile(sample, 0.5), { ...KEYS, resamples: 600 });
    expect(result.standardError).toBeGreaterThan(0.045);
    expect(result.standardError).toBeLessThan(0.085);
  });

  it('narrows with a lower level', () => {
    const wide = bootstrap(ONE_TO_TEN, mean, { ...KEYS, level: 0.95 });
    const narrow = bootstrap(ONE_TO_TEN, mean, { ...KEYS, level: 0.5 });
    // Half of a normal distribution lies within 0.674 sd, 95 % within 1.960.
    expect((narrow.high - narrow.low) / (wide.high - wide.low)).toBeCloseTo(0.674 / 1.96, 1);
  });

  it('refuses no values', () => {
    expect(() => bootstrap(new Float64Array(0), mean, KEYS)).toThrow(/no values/);
  });
});

describe('bootstrapPairedDifference', () => {
  it('cancels what the pairs have in common', () => {
    const shared = normals(40, 1);
    const own = normals(40, 2);
    const before = shared.map((x) => 10 * x);
    const after = shared.map((x, i) => 10 * x + 1 + 0.1 * own[i]);
    const paired = bootstrapPairedDifference(before, after, KEYS);
    expect(Math.abs(paired.estimate - 1)).toBeLessThan(0.06);
    // 0.1 / sqrt(40) = 0.0158 although each side alone has 10 / sqrt(40) = 1.58.
    expect(paired.standardError).toBeGreaterThan(0.011);
    expect(paired.standardError).toBeLessThan(0.021);
    expect(paired.low).toBeGreaterThan(0.9);
  });

  it('refuses unequal lengths', () => {
    expect(() => bootstrapPairedDifference(ONE_TO_TEN, new Float64Array(9), KEYS)).toThrow(
      /10 values against 9/,
    );
  });
});
