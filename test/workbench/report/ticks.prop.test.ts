import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linearTicks, logTicks, niceStep } from '../../../workbench/report/ticks.ts';

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
/** Positive values over twelve decades. */
const wide = finite(-6, 6).map((exponent) => 10 ** exponent);

describe('linearTicks', () => {
  it('stays inside, rises evenly and lands on multiples of 1, 2 or 5 times a power of ten', () => {
    fc.assert(
      fc.property(finite(-1000, 1000), wide, fc.integer({ min: 2, max: 12 }), (low, span, target) => {
        fc.pre(span > Math.abs(low) * 1e-6);
        const high = low + span;
        const ticks = linearTicks(low, high, target);
        const step = niceStep(span / target);
        expect(['1', '2', '5']).toContain(step.toExponential().split('e')[0]);
        for (const tick of ticks) {
          expect(tick).toBeGreaterThanOrEqual(low - step * 1e-6);
          expect(tick).toBeLessThanOrEqual(high + step * 1e-6);
          expect(Math.abs(tick / step - Math.round(tick / step))).toBeLessThan(1e-4);
        }
        for (let index = 1; index < ticks.length; index++)
          expect((ticks[index] - ticks[index - 1]) / step).toBeCloseTo(1, 4);
        // A step is at most 2.5 times too coarse, so at least 0.4 of the ticks asked for are there.
        expect(ticks.length).toBeLessThanOrEqual(target + 1);
        expect(ticks.length).toBeGreaterThanOrEqual(Math.floor(target * 0.4));
      }),
    );
  });

  it('gives the ticks that one would draw by hand', () => {
    expect(linearTicks(0, 1, 5)).toEqual([0, 0.2, 0.4, 0.6, 0.8, 1]);
    expect(linearTicks(-0.25, 0.3, 5)).toEqual([-0.2, 0, 0.2]);
    expect(linearTicks(3, 97, 4)).toEqual([50]);
  });
});

describe('logTicks', () => {
  it('stays inside, rises and keeps to the number asked for', () => {
    fc.assert(
      fc.property(wide, finite(1.1, 1e6), fc.integer({ min: 4, max: 10 }), (low, factor, most) => {
        const high = low * factor;
        const ticks = logTicks(low, high, most);
        expect(ticks.length).toBeLessThanOrEqual(most + 1);
        for (let index = 0; index < ticks.length; index++) {
          expect(ticks[index]).toBeGreaterThanOrEqual(low * 0.999999);
          expect(ticks[index]).toBeLessThanOrEqual(high * 1.000001);
          if (index > 0) expect(ticks[index]).toBeGreaterThan(ticks[index - 1]);
        }
      }),
    );
  });

  it('gives the ticks that one would draw by hand', () => {
    expect(logTicks(8, 45, 9)).toEqual([8, 10, 15, 20, 30, 40]);
    expect(logTicks(0.015, 0.6, 7)).toEqual([0.02, 0.03, 0.05, 0.1, 0.2, 0.3, 0.5]);
    expect(logTicks(0.01, 1000, 6)).toEqual([0.01, 0.1, 1, 10, 100, 1000]);
  });
});
