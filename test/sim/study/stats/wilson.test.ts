import { describe, expect, it } from 'vitest';
import { wilsonInterval, Z_95 } from '../../../../sim/study/stats/wilson.ts';

describe('wilsonInterval', () => {
  // SciPy 1.17.1 binomtest(hits, trials).proportion_ci(method='wilson'). The first four pairs are the examples
  // of Newcombe, Statist. Med. 17 (1998) 857 (pairs from memory).
  it.each([
    [81, 263, 0.2552885198782742, 0.36620957698280004],
    [15, 148, 0.06238639953073629, 0.16048724172330803],
    [0, 20, 0, 0.16112515805281935],
    [1, 29, 0.006113214292762667, 0.17175521879320282],
    [29, 29, 0.8830302015002592, 1],
  ])('of %i hits in %i agrees with SciPy', (hits, trials, low, high) => {
    const interval = wilsonInterval(hits, trials, Z_95);
    expect(interval.low).toBeCloseTo(low, 14);
    expect(interval.high).toBeCloseTo(high, 14);
    expect(interval.estimate).toBe(hits / trials);
  });

  it('reaches exactly 0 and 1, and knows nothing without trials', () => {
    expect(wilsonInterval(0, 7, Z_95).low).toBe(0);
    expect(wilsonInterval(7, 7, Z_95).high).toBe(1);
    expect(wilsonInterval(0, 0, Z_95)).toEqual({ estimate: Number.NaN, low: 0, high: 1 });
  });

  it('refuses what is no count', () => {
    expect(() => wilsonInterval(5, 4, Z_95)).toThrow(/5 of 4; expected whole numbers/);
    expect(() => wilsonInterval(-1, 4, Z_95)).toThrow(RangeError);
    expect(() => wilsonInterval(0.5, 4, Z_95)).toThrow(RangeError);
  });
});
