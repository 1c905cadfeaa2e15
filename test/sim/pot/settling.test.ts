import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  capacitorNoiseV,
  johnsonNoiseV,
  rcKeep,
  rcRamp as rcRampOfShares,
  rcStep,
  samplerStep,
  settlingTimeConstants,
} from '../../../sim/pot/settling.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;

/** One step with its own share, as a single call. */
function rcRamp(v: number, from: number, to: number, dtS: number, tauS: number): number {
  return rcRampOfShares(v, from, to, rcKeep(dtS, tauS), dtS / tauS);
}

describe('settling', () => {
  it('takes 6.24, 7.62, 9.011, 11.78 time constants for 8, 10, 12, 16 bits', () => {
    // ln(2^(n+1))
    expect([8, 10, 12, 16].map((n) => Number(settlingTimeConstants(n).toFixed(2)))).toEqual([
      6.24, 7.62, 9.01, 11.78,
    ]);
    expect(settlingTimeConstants(12)).toBeCloseTo(9.011, 3);
  });

  it('leaves half a code of 12 bits after that time', () => {
    expect(4096 * rcStep(1, 0, settlingTimeConstants(12) * 0.25e-3, 0.25e-3)).toBeCloseTo(0.5, 9);
  });
});

describe('RC low-pass', () => {
  it('covers 63.212 % of a step in one time constant and follows at once without one', () => {
    expect(rcStep(0, 1, 2.5e-4, 2.5e-4)).toBeCloseTo(0.63212, 5);
    expect(rcStep(0, 1, 1e-3, 0)).toBe(1);
    expect(rcRamp(0, 0.5, 1, 1e-3, 0)).toBe(1);
  });

  it('trails a long ramp by slope times tau', () => {
    // 100 V/s, tau 2.5 ms: 0.25 V behind.
    let v = 0;
    for (let i = 0; i < 50; i += 1) v = rcRamp(v, 0.1 * i, 0.1 * (i + 1), 1e-3, 2.5e-3);
    expect(5 - v).toBeCloseTo(0.25, 6);
  });

  it('does not depend on how an interval is cut into steps', () => {
    fc.assert(
      fc.property(
        evenly(0, 3),
        evenly(0, 3),
        evenly(0, 3),
        evenly(1e-6, 1e-2),
        fc.integer({ min: 2, max: 20 }),
        (v0, a, b, tau, n) => {
          let ramp = v0;
          let step = v0;
          for (let i = 0; i < n; i += 1) {
            ramp = rcRamp(ramp, a + ((b - a) * i) / n, a + ((b - a) * (i + 1)) / n, 1e-3 / n, tau);
            step = rcStep(step, a, 1e-3 / n, tau);
          }
          expect(ramp).toBeCloseTo(rcRamp(v0, a, b, 1e-3, tau), 9);
          expect(step).toBeCloseTo(rcStep(v0, a, 1e-3, tau), 9);
          expect(rcRamp(v0, a, a, 1e-3, tau)).toBeCloseTo(rcStep(v0, a, 1e-3, tau), 9);
        },
      ),
      { numRuns },
    );
  });

  it('never leaves the range of its past and its input', () => {
    fc.assert(
      fc.property(
        evenly(0, 3),
        evenly(0, 3),
        evenly(0, 3),
        evenly(1e-6, 1),
        evenly(1e-6, 1),
        (v0, a, b, dt, tau) => {
          const v = rcRamp(v0, a, b, dt, tau);
          expect(v).toBeGreaterThanOrEqual(Math.min(v0, a, b) - 1e-9);
          expect(v).toBeLessThanOrEqual(Math.max(v0, a, b) + 1e-9);
        },
      ),
      { numRuns },
    );
  });
});

describe('thermal noise and sampler', () => {
  it('is 1.287 uV for 10 k over 10 kHz at 300 K, 0.204 uV left on 100 nF', () => {
    // sqrt(4 k T R B), sqrt(k T / C) with the SI value of k
    expect(1e6 * johnsonNoiseV(10e3, 10e3, 300)).toBeCloseTo(1.287, 3);
    expect(1e6 * capacitorNoiseV(100e-9, 300)).toBeCloseTo(0.2035, 4);
  });

  it('takes 0.41 code of a full step out of 100 nF with 10 pF, everything without a capacitor', () => {
    expect(4096 * samplerStep(10e-12, 100e-9)).toBeCloseTo(0.41, 2);
    expect(samplerStep(10e-12, 0)).toBe(1);
  });
});
