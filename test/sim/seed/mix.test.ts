import { describe, expect, it } from 'vitest';
import { keys, rnd, STREAMS, uniformAt } from '../../../sim/seed/mix.ts';

describe('mix', () => {
  // Reference values of the generator, computed in a separate implementation.
  it('gives the reference bits', () => {
    expect(rnd(1, 2, 3)).toBe(2472549794);
    expect(keys(1, 0, 0)).toEqual([1647446291, 3336202851]);
  });

  it('fills 256 bins evenly (chi-square, 0.1 % limits)', () => {
    const bins = new Float64Array(256);
    const n = 200_000;
    const [k0, k1] = keys(0, 42, STREAMS.parameters);
    for (let i = 0; i < n; i++) bins[Math.floor(uniformAt(i, k0, k1) * 256)]++;
    const even = n / 256;
    const chi2 = bins.reduce((sum, hits) => sum + (hits - even) ** 2 / even, 0);
    // chi-square with 255 degrees of freedom: 0.05 % and 99.95 % points by SciPy
    expect(chi2).toBeGreaterThan(187.17);
    expect(chi2).toBeLessThan(335.92);
  });

  it('gives neighbouring counters, scenarios, seeds and streams unrelated numbers', () => {
    const n = 50_000;
    const pairs: [string, (i: number) => number, (i: number) => number][] = [
      ['counter', (i) => uniformAt(i, 7, 9), (i) => uniformAt(i + 1, 7, 9)],
    ];
    for (const [name, a, b] of [
      ['scenario', keys(1, 5, 0), keys(2, 5, 0)],
      ['seed', keys(1, 5, 0), keys(1, 6, 0)],
      ['stream', keys(1, 5, 0), keys(1, 5, 1)],
    ] as const)
      pairs.push([name, (i) => uniformAt(i, a[0], a[1]), (i) => uniformAt(i, b[0], b[1])]);
    for (const [name, first, second] of pairs) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (first(i) - 0.5) * (second(i) - 0.5);
      // correlation is 0 ± 1/√n for independent numbers
      expect(Math.abs((12 * sum) / n), name).toBeLessThan(4 / Math.sqrt(n));
    }
  });
});
