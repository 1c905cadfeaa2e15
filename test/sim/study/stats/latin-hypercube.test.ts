import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keys } from '../../../../sim/seed/mix.ts';
import { latinHypercube } from '../../../../sim/study/stats/latin-hypercube.ts';

describe('latinHypercube', () => {
  it('puts exactly one point into each stratum of each axis', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 6 }),
        fc.integer(),
        (points, axes, seed) => {
          const cube = latinHypercube(points, axes, seed, 9);
          expect(cube.length).toBe(points * axes);
          for (let axis = 0; axis < axes; axis++) {
            const strata = Array.from({ length: points }, (_, i) =>
              Math.floor(cube[i * axes + axis] * points),
            );
            expect(strata.sort((a, b) => a - b)).toEqual(Array.from({ length: points }, (_, i) => i));
          }
        },
      ),
    );
  });

  it('repeats for the same keys, differs for others, and shuffles the axes independently', () => {
    const cube = latinHypercube(500, 2, 1, 2);
    expect(latinHypercube(500, 2, 1, 2)).toEqual(cube);
    expect(latinHypercube(500, 2, 3, 2)).not.toEqual(cube);
    let product = 0;
    for (let i = 0; i < 500; i++) product += (cube[2 * i] - 0.5) * (cube[2 * i + 1] - 0.5);
    // Correlation of independent axes: sd 1/sqrt(500) = 0.045.
    expect(Math.abs(product / 500) * 12).toBeLessThan(0.18);
  });

  it('gives both orders of two points about equally often', () => {
    let kept = 0;
    for (let seed = 0; seed < 400; seed++) if (latinHypercube(2, 1, ...keys(seed, 1, 0))[0] < 0.5) kept++;
    // Fair coin: sd 10.
    expect(Math.abs(kept - 200)).toBeLessThan(45);
  });

  it('fills the strata, not only their edges', () => {
    const places = Array.from(latinHypercube(200, 1, 4, 5), (x) => (x * 200) % 1);
    const centre = places.reduce((sum, x) => sum + x, 0) / 200;
    // Uniform places: sd of the mean 0.289/sqrt(200) = 0.020.
    expect(Math.abs(centre - 0.5)).toBeLessThan(0.08);
    expect(Math.min(...places)).toBeLessThan(0.05);
    expect(Math.max(...places)).toBeGreaterThan(0.95);
  });
});
