import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  capstanRatio,
  fingertipTensionN,
  frictionExponent,
  lostMotionMm,
  tensionBandN,
} from '../../../sim/string/capstan.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;
const guides = fc.array(fc.record({ wrapDeg: evenly(0, 360), friction: evenly(0, 0.35) }), { maxLength: 5 });

describe('capstan friction', () => {
  // e^(friction * wrap), computed to three places.
  it.each([
    [0.05, [1.04, 1.082, 1.17, 1.266, 1.369]],
    [0.1, [1.082, 1.17, 1.369, 1.602, 1.874]],
    [0.15, [1.125, 1.266, 1.602, 2.028, 2.566]],
    [0.2, [1.17, 1.369, 1.874, 2.566, 3.514]],
    [0.3, [1.266, 1.602, 2.566, 4.111, 6.586]],
  ])('multiplies tension by the table for friction %d', (friction, row) => {
    [45, 90, 180, 270, 360].forEach((deg, i) => {
      expect(Number(capstanRatio(friction, (deg * Math.PI) / 180).toFixed(3))).toBe(row[i]);
    });
  });

  it('makes a band of 0.2235 N at 0.35 N over half a turn of friction 0.1', () => {
    expect(tensionBandN(0.35, 0.1 * Math.PI)).toBeCloseTo(0.2235, 4);
  });

  it('loses 0.22 mm of motion there on an anchor of 1 N/mm', () => {
    expect(lostMotionMm(0.35, 0.1 * Math.PI, 1)).toBeCloseTo(0.22, 2);
    expect(lostMotionMm(0.35, 0.1 * Math.PI, 2)).toBeCloseTo(0.11, 2);
    expect(lostMotionMm(0.35, 0, 1)).toBe(0);
  });

  it('multiplies over guides', () => {
    fc.assert(
      fc.property(guides, (list) => {
        const product = list.reduce((p, g) => p * capstanRatio(g.friction, (g.wrapDeg * Math.PI) / 180), 1);
        expect(Math.exp(frictionExponent(list)) / product).toBeCloseTo(1, 10);
      }),
      { numRuns },
    );
  });

  it('never turns the sign of a tension, and retracting is never the stronger side', () => {
    fc.assert(
      fc.property(evenly(0, 5), guides, (tensionN, list) => {
        const exponent = frictionExponent(list);
        const out = fingertipTensionN(tensionN, exponent, 1);
        const back = fingertipTensionN(tensionN, exponent, -1);
        expect(back).toBeGreaterThanOrEqual(0);
        expect(out).toBeGreaterThanOrEqual(tensionN);
        expect(tensionN).toBeGreaterThanOrEqual(back);
        expect(tensionBandN(tensionN, exponent)).toBeCloseTo(out - back, 9);
      }),
      { numRuns },
    );
  });
});
