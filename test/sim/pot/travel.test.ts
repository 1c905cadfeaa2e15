import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bendOfLinearity, bowed, independentLinearity } from '../../../sim/pot/linearity.ts';
import { beyondStopDeg, centredStartDeg, wiperOfTurn } from '../../../sim/pot/travel.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;

describe('wiper position', () => {
  it('moves over the electrical travel only, with equal dead ends', () => {
    // 280 deg between the stops, 260 of them electrical: 10 deg dead at each end.
    expect(wiperOfTurn(0, 10, 260, 280)).toBe(0);
    expect(wiperOfTurn(0, 4, 260, 280)).toBe(0);
    expect(wiperOfTurn(130, 10, 260, 280)).toBe(0.5);
    expect(wiperOfTurn(65, 10, 260, 280)).toBe(0.25);
    expect(wiperOfTurn(260, 10, 260, 280)).toBe(1);
    expect(wiperOfTurn(400, 10, 260, 280)).toBe(1);
  });

  it('centres a stroke', () => {
    const start = centredStartDeg(197.3, 280);
    expect(wiperOfTurn(0, start, 260, 280) + wiperOfTurn(197.3, start, 260, 280)).toBeCloseTo(1, 12);
    expect(wiperOfTurn(197.3, start, 260, 280) - wiperOfTurn(0, start, 260, 280)).toBeCloseTo(
      197.3 / 260,
      12,
    );
  });

  it('tells how far the shaft would pass its stops', () => {
    expect(beyondStopDeg(100, 10, 280)).toBe(0);
    expect(beyondStopDeg(296, 10, 280)).toBe(26);
    expect(beyondStopDeg(-15, 10, 280)).toBe(-5);
  });

  it('stays in 0-1 for any turn, and never falls when the turn grows', () => {
    const any = fc.oneof(fc.double(), evenly(-100, 400));
    fc.assert(
      fc.property(
        any,
        any,
        evenly(0, 100),
        evenly(200, 260),
        evenly(0, 40),
        (a, b, start, electrical, dead) => {
          const wiper = [a, b].map((turn) => wiperOfTurn(turn, start, electrical, electrical + dead));
          for (const x of wiper) expect(x >= 0 && x <= 1).toBe(true);
          if (a <= b) expect(wiper[0]).toBeLessThanOrEqual(wiper[1]);
        },
      ),
      { numRuns },
    );
  });
});

/** Independent linearity by brute force: every chord slope of a grid tried. */
function bruteLinearity(bow: number, sBend: number): number {
  let best = Infinity;
  for (let k = -600; k <= 600; k += 1) {
    const slope = 1 + k / 2000;
    let [most, least] = [-Infinity, Infinity];
    for (let i = 0; i <= 300; i += 1) {
      const y = bowed(i / 300, bow, sBend) - (slope * i) / 300;
      most = Math.max(most, y);
      least = Math.min(least, y);
    }
    best = Math.min(best, (most - least) / 2);
  }
  return best;
}

describe('linearity', () => {
  it('is half the height of a bow and a sixteenth of an S-bend factor', () => {
    // Best lines of a parabola and of a cubic (Chebyshev polynomials T2 and T3).
    expect(independentLinearity(0.04, 0)).toBeCloseTo(0.02, 9);
    expect(independentLinearity(-0.04, 0)).toBeCloseTo(0.02, 9);
    expect(independentLinearity(0, 0.32)).toBeCloseTo(0.02, 9);
    expect(independentLinearity(0, 0)).toBe(0);
  });

  it.each([-0.9, -0.5, -0.2, 0, 0.13, 0.4, 0.5, 0.77])('is the stated 2 percent at mix %d', (mix) => {
    const [bow, sBend] = bendOfLinearity(0.02, mix);
    expect(Math.abs(bruteLinearity(bow, sBend) - 0.02)).toBeLessThan(1e-4);
  });

  it('keeps both ends, stays in 0-1 and stays monotone up to 5 percent', () => {
    fc.assert(
      fc.property(evenly(0, 0.05), evenly(-1, 1), evenly(0, 0.99), (linearity, mix, x) => {
        const [bow, sBend] = bendOfLinearity(linearity, mix);
        expect(bowed(0, bow, sBend)).toBe(0);
        expect(bowed(1, bow, sBend)).toBe(1);
        expect(bowed(x + 0.01, bow, sBend)).toBeGreaterThan(bowed(x, bow, sBend));
      }),
      { numRuns },
    );
  });
});
