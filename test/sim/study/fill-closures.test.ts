import { mean } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { fillClosures } from '../../../sim/study/score.ts';
import { madeTrace } from './made-trace.ts';

/** A table that gives every word back as it is, so that closures show words. */
const WORDS = { closureTable: Float64Array.from({ length: 4097 }, (_, i) => 16 * i) };

/** Words of some levels with gain 1 and offset 0. */
function wordsOf(levels: number[]): number[] {
  const closure = new Float64Array(levels.length);
  const trace = madeTrace(levels, WORDS);
  fillClosures(Float64Array.from(levels), 0, 1, 0, trace, closure);
  return [...closure];
}

describe('closures of smoothed levels', () => {
  it('go through whole words: the store into 16 bits drops the fraction', () => {
    expect(wordsOf([0, 0.99, 1, 6553.5, 58982.999, 65533.999])).toEqual([0, 0, 1, 6553, 58982, 65533]);
  });

  it('stay within the words of a travel, which end at 65534', () => {
    // The board saturates first and drops the fraction then.
    expect(wordsOf([-0.5, -1, -70000, -5e6, 65534, 65534.9, 65535, 131072, 5e6])).toEqual([
      0, 0, 0, 0, 65534, 65534, 65534, 65534, 65534,
    ]);
  });

  for (const frames of [1, 2, 3, 4, 101]) {
    it(`give the mean square error of all ${frames} frames`, () => {
      const levels = Float64Array.from({ length: frames }, (_, f) => 100 + f);
      const truth = Float64Array.from({ length: frames }, (_, f) => 100 + f - Math.sin(f + 1));
      const trace = madeTrace(truth, WORDS);
      const squareError = fillClosures(levels, 0, 1, 0, trace, new Float64Array(frames));
      expect(squareError).toBeCloseTo(
        mean(Array.from({ length: frames }, (_, f) => Math.sin(f + 1) ** 2)),
        12,
      );
    });
  }

  it('start at the place of their lane', () => {
    const closure = new Float64Array(2);
    const trace = madeTrace([0, 0], WORDS);
    fillClosures(Float64Array.of(7, 8, 9, 10), 2, 1, 0, trace, closure);
    expect([...closure]).toEqual([9, 10]);
  });
});
