import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fingertipNormalN,
  inertiaTorqueMNm,
  MNM_PER_GF_CM,
  returnFactor,
  spoolInertiaKgM2,
  stringTensionN,
  tensionVerdict,
} from '../../../sim/spool/force.ts';
import { spoolRadiusMm, travelShare, travelVerdict } from '../../../sim/spool/radius.ts';
import { barrelTurns, springTorqueMNm, stripStressMPa, stripTorqueMNm } from '../../../sim/spool/spring.ts';
import { spoolTurnDeg, stringOutMm, windLengthMm } from '../../../sim/spool/winding.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;
const TURN = 2 * Math.PI;

describe('spring', () => {
  it('gives 1.767 mN·m a turn and 5.301 at three (200 GPa, 5 x 0.15 mm, 1 m)', () => {
    // E b t^3 angle / (12 L)
    expect(stripTorqueMNm(200, 5, 0.15, 1000, TURN)).toBeCloseTo(1.767, 3);
    expect(stripTorqueMNm(200, 5, 0.15, 1000, 3 * TURN)).toBeCloseTo(5.301, 3);
    expect(stripTorqueMNm(200, 5, 0.1, 1000, TURN)).toBeCloseTo(0.524, 3);
  });

  it('grows eightfold with twice the thickness', () => {
    expect(stripTorqueMNm(200, 5, 0.3, 1000, 1) / stripTorqueMNm(200, 5, 0.15, 1000, 1)).toBeCloseTo(8, 12);
  });

  it('is stressed to 334 MPa at 3.548 turns', () => {
    // 6 M / (b t^2)
    expect(stripStressMPa(stripTorqueMNm(200, 5, 0.15, 1000, 3.548 * TURN), 5, 0.15)).toBeCloseTo(334, 0);
  });

  it('in a half-full barrel of 15 mm on a 3 mm arbor gives 36.3 turns of 0.1 mm strip', () => {
    expect(barrelTurns(15, 3, 0.1)).toBeCloseTo(36.3, 1);
  });

  it('rises by 1.183 over 0.548 turn with three preload turns, by 1.548 with one', () => {
    const rise = (preload: number) =>
      springTorqueMNm(0.548, 1.767 * preload, 1.767, 0, 0) / (1.767 * preload);
    expect(rise(3)).toBeCloseTo(1.183, 3);
    expect(rise(1)).toBeCloseTo(1.548, 3);
  });

  it('pulls harder while paying out than while winding in', () => {
    expect(springTorqueMNm(0, 5.3, 1.767, 0.1, 1)).toBeCloseTo(5.83, 9);
    expect(springTorqueMNm(0, 5.3, 1.767, 0.1, -1)).toBeCloseTo(4.77, 9);
  });
});

describe('winding', () => {
  it('winds 95.190 mm in one turn and 494.801 in five (core 15 mm, string 0.3 mm)', () => {
    // 2 pi (r0 n + d n^2 / 2)
    expect(windLengthMm(1, 15, 0.3)).toBeCloseTo(95.19, 3);
    expect(windLengthMm(5, 15, 0.3)).toBeCloseTo(494.801, 3);
    expect(windLengthMm(1, 15, 0)).toBeCloseTo(94.25, 2);
  });

  it('turns 197.3 deg for 51.66 mm at 15 mm, a little more when the radius falls', () => {
    expect(spoolTurnDeg(51.662, 15, 0)).toBeCloseTo(197.3, 1);
    // Over 0.548 turn the mean radius is 0.55 % lower.
    expect(spoolTurnDeg(51.662, 15, 0.3) / spoolTurnDeg(51.662, 15, 0)).toBeCloseTo(1.0055, 3);
  });

  it('pays out from a full spool what was wound on', () => {
    // A spool wound n turns from core r0 is r0 + n d where the string leaves.
    fc.assert(
      fc.property(evenly(0, 6), evenly(8, 20), evenly(0, 0.6), (turns, coreMm, d) => {
        const length = windLengthMm(turns, coreMm, d);
        expect(spoolTurnDeg(length, coreMm + turns * d, d)).toBeCloseTo(360 * turns, 6);
      }),
      { numRuns },
    );
  });

  it('is undone by stringOutMm and rises with the string', () => {
    fc.assert(
      fc.property(evenly(-10, 80), evenly(0.001, 5), evenly(8, 20), evenly(0, 0.6), (out, more, r, d) => {
        const turnDeg = spoolTurnDeg(out, r, d);
        expect(stringOutMm(turnDeg, r, d)).toBeCloseTo(out, 9);
        expect(spoolTurnDeg(out + more, r, d)).toBeGreaterThan(turnDeg);
      }),
      { numRuns },
    );
  });

  it('stops when there is no radius left', () => {
    // Radius 1 mm, string 0.5 mm: two turns empty it.
    expect(spoolTurnDeg(1000, 1, 0.5)).toBe(720);
  });
});

describe('spool radius', () => {
  it.each([
    [240, 15.42],
    [260, 14.23],
    [280, 13.21],
  ])('spends 0.8 of %d deg on 51.66 mm with a radius of %d mm', (travelDeg, radiusMm) => {
    expect(spoolRadiusMm(51.66, travelDeg, 0.8)).toBeCloseTo(radiusMm, 2);
  });

  it.each([
    [15, 0.759, 'ok'],
    [12, 0.949, 'tight'],
    [10, 1.138, 'end stop'],
  ])('of %d mm uses %d of 260 deg: %s', (radiusMm, share, verdict) => {
    expect(travelShare(51.66, radiusMm, 260)).toBeCloseTo(share, 3);
    expect(travelVerdict(travelShare(51.66, radiusMm, 260))).toBe(verdict);
  });
});

describe('force', () => {
  it('pulls 0.353 N at 5.3 mN·m on 15 mm, felt across the fingertip as 0.060 N', () => {
    expect(stringTensionN(5.3, 0, 15, 0)).toBeCloseTo(0.353, 3);
    expect(fingertipNormalN(stringTensionN(5.3, 0, 15, 0), 14, 81.82)).toBeCloseTo(0.06, 3);
  });

  it('adds the drag while paying out, takes it away while winding in, and never pushes', () => {
    expect(stringTensionN(5.3, 2, 10, 1)).toBeCloseTo(0.73, 12);
    expect(stringTensionN(5.3, 2, 10, -1)).toBeCloseTo(0.33, 12);
    expect(stringTensionN(5.3, 9.81, 15, -1)).toBe(0);
  });

  it('asks 0.28 mN·m for an opening in 200 ms and 1.38 in 90 ms', () => {
    // I alpha with alpha = 5.7735 D / (r T^2); 1.38 is for an inertia of 5.62e-7, rounded to 5.6e-7.
    expect(inertiaTorqueMNm(5.62e-7, 51.66, 15, 0.2)).toBeCloseTo(0.28, 2);
    expect(inertiaTorqueMNm(5.62e-7, 51.66, 15, 0.09)).toBeCloseTo(1.38, 2);
  });

  it('takes a 15 x 5.7 mm disc of solid PLA for 5.6e-7 kg·m²', () => {
    // m r^2 / 2 with m = 1240 * pi * 0.015^2 * 0.0057 = 4.996 g
    expect(spoolInertiaKgM2(15, 5.7, 1240)).toBeCloseTo((0.004996 * 0.015 ** 2) / 2, 10);
  });

  it('finds that 5.3 mN·m cannot return a 100 gf·cm potentiometer but returns one of 20', () => {
    // 10-100 gf·cm is the range of the PTV09 datasheet: 0.98-9.81 mN·m.
    expect(100 * MNM_PER_GF_CM).toBeCloseTo(9.81, 2);
    expect(20 * MNM_PER_GF_CM).toBeCloseTo(1.961, 3);
    const inertia = inertiaTorqueMNm(5.6e-7, 51.66, 15, 0.09);
    expect(returnFactor(5.3, 100 * MNM_PER_GF_CM, inertia)).toBeLessThan(1);
    expect(returnFactor(5.3, 20 * MNM_PER_GF_CM, inertia)).toBeGreaterThan(1);
    expect(returnFactor(5.3, 2, 0.5)).toBeCloseTo(5.3 / 3.5, 12);
  });

  it('judges tensions by the key forces of NUREG-0700', () => {
    expect([0.1, 0.35, 0.8, 2].map(tensionVerdict)).toEqual(['loose', 'fine', 'tiring', 'too strong']);
  });
});
