import fc from 'fast-check';
import { median } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { medianOfThree } from '../../../firmware/chain/median.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';

describe('medianOfThree', () => {
  it('is the middle value in every order, ties included', () => {
    const value = fc.oneof(fc.integer({ min: 0, max: 3 }), fc.double({ noNaN: true }));
    fc.assert(
      fc.property(value, value, value, (a, b, c) => {
        expect(medianOfThree(a, b, c) === median([a, b, c])).toBe(true);
      }),
    );
  });

  it('takes out a single spike of either sign and passes two in a row', () => {
    const inputs = [5, 5, 900, 5, 5, -900, 5, 5, 900, 900, 5, 5];
    const output = inputs.slice(2).map((x, i) => medianOfThree(x, inputs[i + 1], inputs[i]));
    expect(output).toEqual([5, 5, 5, 5, 5, 5, 5, 900, 900, 5]);
  });

  it('delays steady motion by one frame', () => {
    expect(medianOfThree(30, 20, 10)).toBe(20);
    expect(medianOfThree(10, 20, 30)).toBe(20);
  });

  it('leaves 0.449 of the variance of Gaussian noise', () => {
    // Middle of three normal draws: 1 − √3/π = 0.4487 (order statistics of the normal distribution).
    const [k0, k1] = keys(2, 5, 0);
    const count = 60_000;
    let squares = 0;
    for (let i = 0; i < count; i++) {
      const y = medianOfThree(gaussAt(3 * i, k0, k1), gaussAt(3 * i + 1, k0, k1), gaussAt(3 * i + 2, k0, k1));
      squares += y * y;
    }
    // Scatter of the estimate about 0.6 %.
    expect(Math.abs(squares / count / (1 - Math.sqrt(3) / Math.PI) - 1)).toBeLessThan(0.02);
  });
});
