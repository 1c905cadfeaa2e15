import fc from 'fast-check';
import { median, quickselect } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { quantile, quantileInPlace, selectInPlace } from '../../../../sim/study/stats/quantile.ts';

const VALUES = [3.1, -2, 7.5, 0.25, 11, 4, 4, -8.5, 6, 1.75];
const numbers = fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 1, maxLength: 60 });

describe('quantile', () => {
  // NumPy 2.4 np.quantile, default method.
  it.each([
    [0, -8.5],
    [0.025, -7.0375],
    [0.1, -2.65],
    [0.25, 0.625],
    [0.5, 3.55],
    [0.6, 4],
    [0.9, 7.85],
    [0.975, 10.2125],
    [1, 11],
  ])('%d of ten values agrees with NumPy', (share, expected) => {
    expect(quantile(VALUES, share)).toBeCloseTo(expected, 12);
  });

  it('leaves its input alone and gives NaN for a NaN among the values', () => {
    const copy = VALUES.slice();
    quantile(VALUES, 0.3);
    expect(VALUES).toEqual(copy);
    expect(quantile([1, Number.NaN, 3], 0.5)).toBeNaN();
  });

  it('is the median of simple-statistics at one half', () => {
    fc.assert(
      fc.property(numbers, (values) => {
        expect(quantile(values, 0.5)).toBeCloseTo(median(values), 6);
      }),
    );
  });

  it('names what is wrong with its share or its values', () => {
    expect(() => quantile(VALUES, 1.5)).toThrow(/share 1.5; expected 0 to 1/);
    expect(() => quantile([], 0.5)).toThrow(/of 0 values/);
  });
});

describe('quantileInPlace', () => {
  it('uses only the first values of a longer buffer', () => {
    const buffer = Float64Array.from([5, 1, 3, 1000, -1000]);
    expect(quantileInPlace(buffer, 0.5, 3)).toBe(3);
    expect(Array.from(buffer.slice(3))).toEqual([1000, -1000]);
  });
});

describe('selectInPlace', () => {
  it('agrees with simple-statistics and parts the array at k', () => {
    fc.assert(
      fc.property(numbers, fc.nat(), (values, seed) => {
        const k = seed % values.length;
        const own = Float64Array.from(values);
        const got = selectInPlace(own, k, own.length);
        const reference = values.slice();
        quickselect(reference, k);
        expect(got).toBe(reference[k]);
        for (let i = 0; i < k; i++) expect(own[i] <= got).toBe(true);
        for (let i = k; i < own.length; i++) expect(own[i] >= got).toBe(true);
        expect(Array.from(own).sort((a, b) => a - b)).toEqual(values.slice().sort((a, b) => a - b));
      }),
    );
  });

  it('finishes fast on sorted, reversed and constant values', () => {
    const n = 200_000;
    const shapes = [(i: number) => i, (i: number) => n - i, () => 1, (i: number) => i % 2];
    const start = performance.now();
    for (const shape of shapes)
      selectInPlace(
        Float64Array.from({ length: n }, (_, i) => shape(i)),
        n >> 1,
        n,
      );
    // A quadratic walk would take 10^10 steps each.
    expect(performance.now() - start).toBeLessThan(1500);
  });

  it('refuses a position outside', () => {
    expect(() => selectInPlace(new Float64Array(3), 3, 3)).toThrow(RangeError);
    expect(() => selectInPlace(new Float64Array(3), 0, 4)).toThrow(RangeError);
  });
});
