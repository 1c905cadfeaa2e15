import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimumJerk } from '../../../sim/hand/minimum-jerk.ts';
import { retract, retractAccelerationMmPerS2, stepSpool, willRetract } from '../../../sim/string/slack.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 3000 : 200;

/** Lets 50 mm of slack be wound in and gives the time it takes, s. */
function windInS(dtS: number, accelerationMmPerS2: number): number {
  const state = { spoolMm: 50, speedMmPerS: 0 };
  let steps = 0;
  while (state.spoolMm > 0) {
    stepSpool(state, 0, dtS, accelerationMmPerS2);
    steps += 1;
  }
  return steps * dtS;
}

/** Largest slack while a hand opens over 51.66 mm in timeS with minimum jerk. */
function largestSlackMm(timeS: number, accelerationMmPerS2: number, dtS: number): number {
  const state = { spoolMm: 51.66, speedMmPerS: 0 };
  let most = 0;
  for (let t = dtS; t < 2 * timeS; t += dtS) {
    const stringMm = 51.66 * (1 - minimumJerk(t / timeS));
    most = Math.max(most, stepSpool(state, stringMm, dtS, accelerationMmPerS2) - stringMm);
  }
  return most;
}

describe('slack string', () => {
  it('winds in as fast as a free mass: sqrt(2 s / a)', () => {
    // 50 mm at 10000 mm/s^2: 0.1 s.
    expect(windInS(1e-5, 10000)).toBeCloseTo(0.1, 4);
    expect(Math.abs(windInS(1e-3, 10000) - 0.1)).toBeLessThan(2e-3);
  });

  it('accelerates with the net torque over the inertia', () => {
    // (5.3 * 0.9 - 1.961) mN·m / 5.6e-7 kg·m² = 5016 rad/s^2, times 15 mm.
    expect(retractAccelerationMmPerS2(5.3, 0.1, 1.961, 0, 5.6e-7, 15)).toBeCloseTo(75241, 0);
    expect(retractAccelerationMmPerS2(5.3, 0, 9.81, 0, 5.6e-7, 15)).toBeLessThan(0);
    expect(retractAccelerationMmPerS2(5.3, 0, 5, 0.3, 5.6e-7, 15)).toBeCloseTo(0, 6);
  });

  it('stays taut exactly when the spool can outpace the opening hand', () => {
    // Peak acceleration of a minimum-jerk opening: 5.7735 D / T^2 (Flash & Hogan 1985) = 7457 mm/s^2 in 200 ms.
    const asked = (5.7735 * 51.66) / 0.2 ** 2;
    for (const dtS of [1 / 800, 1 / 3200]) {
      expect(largestSlackMm(0.2, 1.02 * asked, dtS)).toBeLessThan(1e-9);
      expect(largestSlackMm(0.2, 0.7 * asked, dtS)).toBeGreaterThan(0.1);
    }
  });

  it('hangs for good when the drag is stronger than the spring', () => {
    // 100 gf·cm = 9.81 mN·m (the top of the PTV09 datasheet's range) against 5.3; 20 gf·cm = 1.961.
    expect(willRetract(5.3, 0.1, 9.81, 0)).toBeLessThan(1);
    expect(willRetract(5.3, 0.1, 1.961, 0)).toBeGreaterThan(2);
    expect(willRetract(5.3, 0.1, 0, 0)).toBe(Infinity);
    const state = { spoolMm: 30, speedMmPerS: 0 };
    const a = retractAccelerationMmPerS2(5.3, 0.1, 9.81, 0, 5.6e-7, 15);
    for (let i = 0; i < 1000; i += 1) stepSpool(state, 0, 0.001, a);
    expect(state.spoolMm).toBe(30);
  });

  it('is braked to a stop, not turned round', () => {
    const state = { spoolMm: 30, speedMmPerS: 100 };
    for (let i = 0; i < 100; i += 1) stepSpool(state, 0, 0.001, -10000);
    expect(state.speedMmPerS).toBe(0);
    // 100 mm/s at -10000 mm/s^2: v^2 / 2a = 0.5 mm, less the half step of the scheme.
    expect(30 - state.spoolMm).toBeCloseTo(0.45, 9);
  });

  it('is pulled out at once', () => {
    expect(retract(10, 50, 12.5, 0.001, 1000)).toBe(12.5);
    const state = { spoolMm: 10, speedMmPerS: 50 };
    stepSpool(state, 12.5, 0.001, 1000);
    expect(state).toEqual({ spoolMm: 12.5, speedMmPerS: 0 });
  });

  it('never pushes the string, never pays out by itself, never winds backwards', () => {
    const path = fc.array(fc.tuple(evenly(0, 60), evenly(-5000, 90000)), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(path, evenly(1e-4, 0.02), (steps, dtS) => {
        const state = { spoolMm: 0, speedMmPerS: 0 };
        for (const [stringMm, acceleration] of steps) {
          const before = state.spoolMm;
          stepSpool(state, stringMm, dtS, acceleration);
          expect(state.spoolMm).toBeGreaterThanOrEqual(stringMm);
          expect(state.spoolMm).toBeLessThanOrEqual(Math.max(before, stringMm));
          expect(state.speedMmPerS).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns },
    );
  });
});
