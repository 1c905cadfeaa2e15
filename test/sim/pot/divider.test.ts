import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividerVolts, loadingError, sourceOhm } from '../../../sim/pot/divider.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;

/** Node voltage and Thevenin resistance by Kirchhoff's law at the wiper, with conductances. */
function byConductances(lowerOhm: number, upperOhm: number, supplyV: number, loadOhm: number) {
  const sum = 1 / lowerOhm + 1 / upperOhm + 1 / loadOhm;
  return { volts: supplyV / upperOhm / sum, ohm: 1 / sum };
}

describe('loading error', () => {
  // x - x / (1 + x (1-x) Rp / RL): largest error and its place, computed.
  it.each([
    [2, 6.673, 0.678],
    [10, 1.449, 0.669],
    [20, 0.733, 0.668],
    [100, 0.1478, 0.667],
    [1000, 0.0148, 0.667],
  ])('with a load of %d times the potentiometer peaks at %d percent, at x = %d', (ratio, percent, place) => {
    let best = 0;
    for (let i = 1; i < 100000; i += 1) {
      if (loadingError(i / 1e5, 1, ratio) > loadingError(best, 1, ratio)) best = i / 1e5;
    }
    const digits = ratio < 100 ? 3 : 4;
    expect(Number((100 * loadingError(best, 1, ratio)).toFixed(digits))).toBe(percent);
    expect(Number(best.toFixed(3))).toBe(place);
  });

  it('reads 0.48780 instead of 0.5 at a load of ten times', () => {
    expect(0.5 - loadingError(0.5, 10e3, 100e3)).toBeCloseTo(0.4878, 5);
    expect(dividerVolts(0.5, 1, 10e3, 0, 0, 100e3)).toBeCloseTo(0.4878, 5);
  });

  it('is zero at both ends and low everywhere else', () => {
    fc.assert(
      fc.property(evenly(1e-6, 1 - 1e-6), evenly(100, 1e6), evenly(100, 1e7), (x, potOhm, loadOhm) => {
        expect(loadingError(0, potOhm, loadOhm)).toBe(0);
        expect(loadingError(1, potOhm, loadOhm)).toBe(0);
        expect(loadingError(x, potOhm, loadOhm)).toBeGreaterThan(0);
        // The same circuit by the divider.
        expect(x - dividerVolts(x, 1, potOhm, 0, 0, loadOhm)).toBeCloseTo(
          loadingError(x, potOhm, loadOhm),
          10,
        );
      }),
      { numRuns },
    );
  });
});

describe('divider', () => {
  it('spans 0.1665 to 2.3443 V over the tolerance corners of 5.6 k, 10 k, 1 k at 3.3 V', () => {
    // 3.3 V * 0.95k / (5.88k + 12k + 0.95k) and 3.3 V * (12k + 1.05k) / (5.32k + 12k + 1.05k).
    expect(dividerVolts(0, 3.3, 12e3, 5880, 950, 0)).toBeCloseTo(0.1665, 4);
    expect(dividerVolts(1, 3.3, 12e3, 5320, 1050, 0)).toBeCloseTo(2.3443, 4);
  });

  it('spans 0.1650 to 2.2589 V there with a pull-down of 100 k', () => {
    expect(dividerVolts(0, 3.3, 12e3, 5880, 950, 100e3)).toBeCloseTo(0.165, 4);
    expect(dividerVolts(1, 3.3, 12e3, 5320, 1050, 100e3)).toBeCloseTo(2.2589, 4);
  });

  it('has a largest source resistance of 4.15 k with 5.6 k and 1 k, R/4 alone', () => {
    let most = 0;
    for (let i = 0; i <= 1000; i += 1) most = Math.max(most, sourceOhm(i / 1000, 10e3, 5600, 1000, 0));
    expect(most).toBeCloseTo(4150, 1);
    expect(sourceOhm(0.5, 10e3, 0, 0, 0)).toBe(2500);
    expect(sourceOhm(0, 10e3, 0, 0, 0)).toBe(0);
  });

  it('agrees with the node equation for any parts', () => {
    const part = evenly(10, 1e5);
    fc.assert(
      fc.property(
        evenly(0, 1),
        evenly(1, 5),
        part,
        part,
        part,
        evenly(1e3, 1e7),
        (x, v, pot, top, bottom, pull) => {
          const node = byConductances(bottom + x * pot, top + (1 - x) * pot, v, pull);
          expect(dividerVolts(x, v, pot, top, bottom, pull) / node.volts).toBeCloseTo(1, 9);
          expect(sourceOhm(x, pot, top, bottom, pull) / node.ohm).toBeCloseTo(1, 9);
          const open = byConductances(bottom + x * pot, top + (1 - x) * pot, v, Infinity);
          expect(dividerVolts(x, v, pot, top, bottom, 0) / open.volts).toBeCloseTo(1, 9);
          expect(sourceOhm(x, pot, top, bottom, 0) / open.ohm).toBeCloseTo(1, 9);
        },
      ),
      { numRuns },
    );
  });

  it('rises with the wiper and never leaves the supply', () => {
    const part = evenly(0, 1e5);
    fc.assert(
      fc.property(
        evenly(0, 0.99),
        evenly(1e-3, 0.01),
        evenly(1e3, 1e5),
        part,
        part,
        (x, more, pot, top, bottom) => {
          for (const pull of [0, 1e5]) {
            const volts = dividerVolts(x, 3.3, pot, top, bottom, pull);
            expect(volts).toBeGreaterThanOrEqual(0);
            expect(volts).toBeLessThanOrEqual(3.3);
            expect(dividerVolts(x + more, 3.3, pot, top, bottom, pull)).toBeGreaterThan(volts);
          }
        },
      ),
      { numRuns },
    );
  });
});
