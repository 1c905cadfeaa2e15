import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RATED_DRAG_MNM } from '../../../sim/pot/drag.ts';
import { helixTurnMm, layersIn, oneLayerWidthMm, singleGrooveWidthMm } from '../../../sim/spool/groove.ts';
import { barrelTurns, halfFullBarrelMm, turnsInBarrel } from '../../../sim/spool/spring.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 3000 : 200;

describe('turns side by side', () => {
  it('need one strand more than there are turns, and 0.2 mm of room', () => {
    // (3 + 1) 0.3 + 0.2 by hand
    expect(oneLayerWidthMm(3, 0.3)).toBeCloseTo(1.4, 12);
    expect(singleGrooveWidthMm(0.3)).toBeCloseTo(0.5, 12);
  });

  it('fit one layer in that width, and pile up in less', () => {
    expect(layersIn(1.2, 3, 0.3)).toBe(1);
    expect(layersIn(0.9, 3, 0.3)).toBe(2);
    expect(layersIn(0.5, 3, 0.3)).toBe(4);
    expect(layersIn(0.1, 3, 0.3)).toBe(4);
    fc.assert(
      fc.property(evenly(0, 12), evenly(0.05, 3), (turns, mm) => {
        expect(layersIn(oneLayerWidthMm(turns, mm), turns, mm)).toBeLessThanOrEqual(2);
        expect(layersIn(oneLayerWidthMm(turns, mm) + mm, turns, mm)).toBe(1);
      }),
      { numRuns },
    );
  });

  it('are hardly longer than a circle: 94.248 mm at 15 mm and a pitch of 0.3 mm', () => {
    // sqrt(94.2478^2 + 0.3^2) = 94.2483
    expect(helixTurnMm(15, 0.3)).toBeCloseTo(94.2483, 4);
  });
});

describe('a strip in its barrel', () => {
  it('gives the turns of a half-full barrel when it fills it to one half: 36.3 of 0.1 mm in 15 mm on 3 mm', () => {
    // half of pi (15^2 - 3^2) is 339.3 mm^2, 3393 mm of 0.1 mm
    const lengthMm = (Math.PI * (225 - 9)) / 2 / 0.1;
    expect(turnsInBarrel(15, 3, 0.1, lengthMm)).toBeCloseTo(36.3, 1);
    expect(turnsInBarrel(15, 3, 0.1, lengthMm)).toBeCloseTo(barrelTurns(15, 3, 0.1), 9);
    expect(halfFullBarrelMm(3, 0.1, lengthMm)).toBeCloseTo(15, 9);
  });

  it('gives fewer turns at any other length, and none when it does not fit', () => {
    fc.assert(
      fc.property(
        evenly(6, 30),
        evenly(1, 5),
        evenly(0.05, 0.5),
        evenly(0.01, 1.2),
        (barrel, arbor, t, fill) => {
          const lengthMm = (fill * Math.PI * (barrel ** 2 - arbor ** 2)) / t;
          const turns = turnsInBarrel(barrel, arbor, t, lengthMm);
          expect(turns).toBeLessThanOrEqual(barrelTurns(barrel, arbor, t) + 1e-9);
          if (fill > 1) expect(turns).toBe(0);
          else expect(turns).toBeGreaterThanOrEqual(0);
        },
      ),
      { numRuns },
    );
  });
});

describe('drag of a common 9 mm potentiometer', () => {
  it('is 0.98 to 9.81 mN·m', () => {
    // 10-100 gf·cm in the PTV09 datasheet
    expect(RATED_DRAG_MNM.map((mNm) => mNm.toFixed(2))).toEqual(['0.98', '9.81']);
  });
});
