import { cumulativeStdNormalProbability } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { normalDensity, upperTail } from '../../../../sim/study/stats/normal.ts';

// mpmath, 30 digits: erfc(z / sqrt(2)) / 2.
const TAILS: [z: number, q: number][] = [
  [-3, 0.9986501019683699],
  [-1, 0.8413447460685429],
  [0, 0.5],
  [0.5, 0.3085375387259869],
  [1, 0.158655253931457],
  [2, 0.02275013194817921],
  [2.4999, 0.00621141837494459],
  [2.5, 0.006209665325776135],
  [3, 0.00134989803163009],
  [4, 3.16712418331199e-5],
  [6, 9.86587645037698e-10],
  [8, 6.220960574271784e-16],
  [12, 1.776482112077679e-33],
  [20, 2.75362411860623e-89],
  [37, 5.725571222524577e-300],
];

describe('upperTail', () => {
  it.each(TAILS)('at %d agrees with mpmath to 1e-12 of the value', (z, q) => {
    expect(Math.abs(upperTail(z) / q - 1)).toBeLessThan(1e-12);
  });

  it('agrees with the table-based normal distribution of simple-statistics', () => {
    // Their table has four decimals.
    for (let z = -3; z <= 3; z += 0.01) {
      expect(Math.abs(1 - upperTail(z) - cumulativeStdNormalProbability(z))).toBeLessThan(1e-4);
    }
  });

  it('is 0 and 1 at the infinities and NaN for NaN', () => {
    expect(upperTail(Number.POSITIVE_INFINITY)).toBe(0);
    expect(upperTail(Number.NEGATIVE_INFINITY)).toBe(1);
    expect(upperTail(Number.NaN)).toBeNaN();
  });
});

describe('normalDensity', () => {
  it('is 1/sqrt(2 pi) in the middle and symmetric', () => {
    expect(normalDensity(0)).toBeCloseTo(0.3989422804014327, 15);
    expect(normalDensity(1)).toBeCloseTo(0.241970724519143, 15);
    expect(normalDensity(-2.3)).toBe(normalDensity(2.3));
  });
});
