import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paretoFront } from '../../../../sim/study/stats/pareto.ts';

// Few distinct values, so that ties and equal points are common.
const measure = fc.oneof(
  fc.integer({ min: 0, max: 9 }),
  fc.double({ noNaN: true, min: 0, max: 9 }),
  fc.constant(Number.POSITIVE_INFINITY),
  fc.constant(Number.NaN),
);
const choices = fc.array(fc.tuple(measure, measure), { maxLength: 50 });

function beats(a: [number, number], b: [number, number]): boolean {
  return a[0] <= b[0] && a[1] <= b[1] && (a[0] < b[0] || a[1] < b[1]);
}

describe('paretoFront', () => {
  it('is what checking every pair gives, in rising order of the first measure', () => {
    fc.assert(
      fc.property(choices, (points) => {
        const first = points.map((p) => p[0]);
        const second = points.map((p) => p[1]);
        const front = paretoFront(first, second);
        const usable = points.map((p) => !Number.isNaN(p[0]) && !Number.isNaN(p[1]));
        const expected = points
          .map((_, i) => i)
          .filter((i) => usable[i] && !points.some((p) => beats(p, points[i])));
        expect(front.slice().sort((a, b) => a - b)).toEqual(expected);
        for (let k = 1; k < front.length; k++) expect(first[front[k]] >= first[front[k - 1]]).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('keeps equal choices and drops one that ties in one measure only', () => {
    expect(paretoFront([1, 1, 2, 1], [5, 5, 5, 6])).toEqual([0, 1]);
    expect(paretoFront([], [])).toEqual([]);
  });

  it('refuses lists of unequal length', () => {
    expect(() => paretoFront([1, 2], [1])).toThrow(/2 values against 1/);
  });
});
