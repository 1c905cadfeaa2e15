import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawOfNormal, partValues, toleranced } from '../../../sim/pot/tolerance.ts';
import {
  BURST_JUMP,
  burstRatePerS,
  burstWiper,
  liftOffDelayS,
  liftOffVolts,
  wearNoiseFactor,
} from '../../../sim/pot/wear.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;

describe('lift-off', () => {
  it('falls from 1.2 V to 0.083 V in 26.7 ms through 100 k, 267 ms through 1 M (100 nF)', () => {
    // R C ln(1.2 / 0.083)
    expect(1000 * liftOffDelayS(1.2, 0.083, 100e3, 100e-9)).toBeCloseTo(26.7, 1);
    expect(1000 * liftOffDelayS(1.2, 0.083, 1e6, 100e-9)).toBeCloseTo(267, 0);
  });

  it('has lost 39 percent after 50 ms through 1 M', () => {
    expect(1 - liftOffVolts(1, 0.05, 1e6, 100e-9)).toBeCloseTo(0.39, 2);
  });

  it('crosses the level when the delay says so', () => {
    fc.assert(
      fc.property(
        evenly(0.2, 3),
        evenly(0.01, 0.19),
        evenly(1e4, 1e6),
        evenly(1e-9, 1e-6),
        (v, level, ohm, farad) => {
          const t = liftOffDelayS(v, level, ohm, farad);
          expect(liftOffVolts(v, t * 0.999, ohm, farad)).toBeGreaterThan(level);
          expect(liftOffVolts(v, t * 1.001, ohm, farad)).toBeLessThan(level);
        },
      ),
      { numRuns },
    );
  });

  it('holds its charge without a pull-down and falls at once without a capacitor', () => {
    expect(liftOffVolts(1.2, 5, 0, 100e-9)).toBe(1.2);
    expect(liftOffDelayS(1.2, 0.083, 0, 100e-9)).toBe(Infinity);
    expect(liftOffVolts(1.2, 1e-6, 1e5, 0)).toBe(0);
    expect(liftOffDelayS(1.2, 0.083, 1e5, 0)).toBe(0);
    expect(liftOffDelayS(0.05, 0.083, 1e5, 1e-7)).toBe(0);
  });
});

describe('wear', () => {
  it('leaves a new part alone and never improves with use', () => {
    expect(wearNoiseFactor(0, 10000)).toBe(1);
    expect(burstRatePerS(0, 10000)).toBe(0);
    fc.assert(
      fc.property(evenly(0, 1e5), evenly(0, 1e5), evenly(100, 1e6), (used, more, rated) => {
        expect(wearNoiseFactor(used + more, rated)).toBeGreaterThanOrEqual(wearNoiseFactor(used, rated));
        expect(burstRatePerS(used + more, rated)).toBeGreaterThanOrEqual(burstRatePerS(used, rated));
      }),
      { numRuns },
    );
  });

  it('has one burst in 15 s at the rated life and stops growing at three lives', () => {
    expect(burstRatePerS(10000, 10000)).toBeCloseTo(1 / 15, 12);
    expect(wearNoiseFactor(10000, 10000)).toBe(3);
    expect(wearNoiseFactor(1e9, 10000)).toBe(wearNoiseFactor(30000, 10000));
  });

  it('covers the jumps of a recorded bad slider: 530, 703, 538, 543, 718 of 1023 around 601', () => {
    // A public student log of slide potentiometers, 10-bit readings 300 ms apart.
    for (const read of [530, 703, 538, 543, 718]) {
      const draw = (read - 601) / 1023 / BURST_JUMP;
      expect(Math.abs(draw)).toBeLessThanOrEqual(1 + 1e-12);
      expect(1023 * burstWiper(601 / 1023, draw)).toBeCloseTo(read, 9);
    }
  });

  it('keeps a burst inside the track', () => {
    fc.assert(
      fc.property(evenly(0, 1), evenly(-1, 1), (x, draw) => {
        const y = burstWiper(x, draw);
        expect(y >= 0 && y <= 1).toBe(true);
        expect(Math.abs(y - x)).toBeLessThanOrEqual(BURST_JUMP + 1e-12);
      }),
      { numRuns },
    );
  });
});

describe('part tolerances', () => {
  const pot = { resistanceOhm: 10e3, tolerance: 0.2, electricalTravelDeg: 260, mechanicalTravelDeg: 280 };
  const wiring = { topOhm: 5600, bottomOhm: 1000, seriesTolerance: 0.05 };

  it('reaches the corners at draws of +-1', () => {
    // 10 k +-20 %, 5 % resistors; PTV09 datasheet: 280 +- 10 deg.
    expect(partValues(pot, wiring, { pot: 1, top: 1, bottom: -1, travel: -1 })).toEqual({
      potOhm: expect.closeTo(12e3, 6),
      topOhm: expect.closeTo(5880, 6),
      bottomOhm: expect.closeTo(950, 6),
      electricalTravelDeg: expect.closeTo((260 * 270) / 280, 9),
      mechanicalTravelDeg: expect.closeTo(270, 9),
    });
  });

  it('gives the nominal build at draws of 0', () => {
    expect(partValues(pot, wiring, { pot: 0, top: 0, bottom: 0, travel: 0 })).toEqual({
      potOhm: 10e3,
      topOhm: 5600,
      bottomOhm: 1000,
      electricalTravelDeg: 260,
      mechanicalTravelDeg: 280,
    });
  });

  it('stays inside the tolerance for any draw', () => {
    fc.assert(
      fc.property(fc.oneof(fc.double(), evenly(-4, 4)), evenly(0, 0.5), (draw, tolerance) => {
        for (const d of [draw, drawOfNormal(draw)]) {
          const value = toleranced(1000, tolerance, d);
          expect(Math.abs(value - 1000)).toBeLessThanOrEqual(1000 * tolerance + 1e-9);
        }
      }),
      { numRuns },
    );
  });

  it('takes three standard deviations for the tolerance', () => {
    expect(drawOfNormal(1.5)).toBe(0.5);
    expect(drawOfNormal(-9)).toBe(-1);
    expect(toleranced(100, 0.2, NaN)).toBe(100);
  });
});
