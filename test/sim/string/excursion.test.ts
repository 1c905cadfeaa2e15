import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fullFlexionDeg } from '../../../sim/hand/closure.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';
import {
  bentExcursionMm,
  closureOfExcursion,
  excursionMm,
  fullExcursionMm,
} from '../../../sim/string/excursion.ts';
import { chordExcursionMm, pulleyExcursionMm, sheathExcursionMm } from '../../../sim/string/landsmeer.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;
const arms = fc.tuple(evenly(10, 18), evenly(8, 15), evenly(6, 12));

describe('excursion', () => {
  it('draws 51.662 mm over arms of 14, 11, 9 mm at full closure', () => {
    // Sum of r * theta: 21.991 + 19.199 + 10.472
    expect(excursionMm(90, 100, 66.667, 14, 11, 9, 0)).toBeCloseTo(51.662, 3);
    expect(fullExcursionMm({ name: 'index', momentArmsMm: [14, 11, 9] }, 0)).toBeCloseTo(51.662, 3);
  });

  it('draws 20.96 mm over bare tendon arms and 54.98 mm over guides of 15, 12, 9 mm', () => {
    expect(excursionMm(90, 100, 200 / 3, 8.6, 2.8, 2.2, 0)).toBeCloseTo(20.96, 2);
    expect(excursionMm(90, 100, 200 / 3, 15, 12, 9, 0)).toBeCloseTo(54.98, 2);
  });

  it('draws 3.75 mm for half a radian over 7.5 mm', () => {
    // "Early active short arc motion", Evans & Thompson: 28.65 deg of PIP and 3.75 mm.
    expect(excursionMm(0, 28.65, 0, 14, 7.5, 9, 0)).toBeCloseTo(3.75, 3);
  });

  it('is zero for the straight finger and adds up joint by joint', () => {
    expect(excursionMm(0, 0, 0, 14, 11, 9, 0.2)).toBe(0);
    fc.assert(
      fc.property(
        evenly(-40, 100),
        evenly(0, 110),
        evenly(0, 100),
        arms,
        evenly(-0.2, 0.2),
        (a, b, c, [p, q, r], k) => {
          const apart =
            excursionMm(a, 0, 0, p, q, r, k) +
            excursionMm(0, b, 0, p, q, r, k) +
            excursionMm(0, 0, c, p, q, r, k);
          expect(excursionMm(a, b, c, p, q, r, k)).toBeCloseTo(apart, 10);
        },
      ),
      { numRuns },
    );
  });

  it('grows with every joint while the arms stay positive', () => {
    fc.assert(
      fc.property(evenly(-40, 99), evenly(0.01, 10), arms, evenly(-0.2, 0.2), (deg, more, [p, q, r], k) => {
        const before = excursionMm(deg, deg, deg, p, q, r, k);
        expect(excursionMm(deg + more, deg, deg, p, q, r, k)).toBeGreaterThan(before);
        expect(excursionMm(deg, deg + more, deg, p, q, r, k)).toBeGreaterThan(before);
        expect(excursionMm(deg, deg, deg + more, p, q, r, k)).toBeGreaterThan(before);
      }),
      { numRuns },
    );
  });

  it('has the arm r (1 + a t) as its slope', () => {
    const h = 1e-4;
    const slope =
      (excursionMm(60 + h, 0, 0, 14, 11, 9, 0.2) - excursionMm(60 - h, 0, 0, 14, 11, 9, 0.2)) / (2 * h);
    expect((slope * 180) / Math.PI).toBeCloseTo(14 * (1 + (0.2 * Math.PI) / 3), 5);
  });

  it('is undone by closureOfExcursion on every finger, with fixed and growing arms', () => {
    fc.assert(
      fc.property(
        evenly(-0.1, 1.1),
        arms,
        evenly(-0.2, 0.2),
        fc.constantFrom(...FINGER_NAMES),
        (c, a, k, name) => {
          const finger = { name, momentArmsMm: a };
          const full = fullFlexionDeg(name);
          const drawn = excursionMm(c * full[0], c * full[1], c * full[2], a[0], a[1], a[2], k);
          const back = closureOfExcursion(drawn, fullExcursionMm(finger, k), bentExcursionMm(finger, k));
          expect(back).toBeCloseTo(c, 9);
        },
      ),
      { numRuns },
    );
  });

  it('stops at the turning point when no closure draws that much', () => {
    // E = 20 c - 10 c^2 never passes 10, reached at closure 1.
    expect(closureOfExcursion(15, 10, -10)).toBe(1);
  });
});

describe('Landsmeer models', () => {
  it('give 10, 9.5885, 10.8476 mm at one radian', () => {
    expect(pulleyExcursionMm(1, 10)).toBe(10);
    expect(chordExcursionMm(1, 10)).toBeCloseTo(9.5885, 4);
    expect(sheathExcursionMm(1, 10, 5)).toBeCloseTo(10.8476, 4);
  });

  it('all become r * t at small angles', () => {
    for (const t of [1e-3, 1e-5, 1e-9, -1e-5]) {
      expect(chordExcursionMm(t, 10) / t).toBeCloseTo(10, 5);
      expect(sheathExcursionMm(t, 10, 5) / t).toBeCloseTo(10, 2);
    }
    expect(sheathExcursionMm(0, 10, 5)).toBe(0);
  });

  it('joins series and closed form of the sheath without a step', () => {
    const below = sheathExcursionMm(0.001 - 1e-12, 10, 5);
    expect(sheathExcursionMm(0.001 + 1e-12, 10, 5) - below).toBeCloseTo(0, 9);
  });
});
