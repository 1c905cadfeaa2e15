import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adaptive } from '../../../firmware/chain/adaptive.ts';
import { adaptiveRise, restBase } from '../../../firmware/chain/constants.ts';

describe('adaptive low-pass', () => {
  it('smooths small steps with the cut-off at rest', () => {
    const base = restBase(2, 0.01);
    // 1 / (1 + 1 / (2π·2·0.01)) = 0.111635, computed with Python; the rise adds 1e-5 of it at this step.
    expect(Math.abs(adaptive(0, 1e-4, base, adaptiveRise(20, 0.01, 1)) / 1e-4 / 0.11163521 - 1)).toBeLessThan(
      5e-5,
    );
    expect(adaptive(0.3, 0.2, base, 0) - 0.3).toBeCloseTo(0.2 * 0.11163521, 8);
  });

  it('at a step of a tenth of closure has its cut-off raised by the rise, at a fifth by four times that', () => {
    const span = 6.5;
    const base = restBase(2, 0.01);
    const rise = adaptiveRise(12, 0.01, span);
    // Gains of 14 Hz and 50 Hz in the form w / (1 + w), w = 2π·f·period: 0.4679849 and 0.7585470 (Python).
    expect(adaptive(0, 0.1 * span, base, rise) / (0.1 * span)).toBeCloseTo(0.4679849, 6);
    expect(adaptive(0, 0.2 * span, base, rise) / (0.2 * span)).toBeCloseTo(0.758547, 6);
  });

  it('moves towards the reading and never past it, whatever the step', () => {
    const positive = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: -1e3, max: 1e3, noNaN: true }),
        positive,
        positive,
        (step, extra, rise) => {
          const moved = adaptive(0, step, 1 + extra, rise);
          expect(Math.abs(moved)).toBeLessThanOrEqual(Math.abs(step));
          expect(moved * step).toBeGreaterThanOrEqual(0);
          // Odd symmetry: closing and opening are smoothed alike.
          expect(adaptive(0, -step, 1 + extra, rise) === -moved).toBe(true);
        },
      ),
    );
  });
});
