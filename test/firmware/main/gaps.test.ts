import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evenly } from '../../sim/evenly.ts';
import { anySettings, plain } from '../../sim/study/any-settings.ts';
import { newHand } from './simulated-hand.ts';

const SMOOTH = plain({ lowPass: { kind: 'exponential', cutoffHz: 2 } });

describe('frames and their times', () => {
  it('takes the first reading as it is, without a ramp from nought', () => {
    fc.assert(
      fc.property(anySettings, evenly(-0.1, 1.1), (settings, first) => {
        const hand = newHand(2, settings);
        for (let f = 0; f < 5; f++) {
          const travel = hand.feed(0.01, first, 1 - first)!;
          expect(Math.abs(travel[0]! - first)).toBeLessThan(2e-5);
          expect(Math.abs(travel[1]! - (1 - first))).toBeLessThan(2e-5);
        }
      }),
    );
  });

  // Equal timestamps broke the rate of a published filter: casiez/OneEuroFilter#2.
  it.each([0, 0.001, 0.0049])('sends nothing and changes nothing %d s after the last frame', (elapsedS) => {
    fc.assert(
      fc.property(anySettings, evenly(0, 1), evenly(0, 1), (settings, before, wrong) => {
        const hand = newHand(1, settings);
        hand.feed(0.01, before);
        hand.feed(0.01, before + 0.05);
        const kept = structuredClone(hand.program.fingers);
        expect(hand.feed(elapsedS, wrong)).toBeUndefined();
        expect(hand.program.fingers).toEqual(kept);
      }),
      { numRuns: 30 },
    );
  });

  it.each([
    [0.1001, 0.9],
    [0.35, 0.9],
    [3600, 0.9],
    // the clock was set back: a new start
    [-3600, 0.9],
    // Just short of a gap the filter goes on: 0.3 and the 0.118 of a 2 Hz average at 100 Hz of the way to 0.9.
    [0.0999, 0.3 + 0.6 * 0.118],
  ])('after a silence of %d s is at %d', (elapsedS, expected) => {
    const hand = newHand(1, SMOOTH);
    for (let f = 0; f < 4; f++) hand.feed(0.01, 0.3);
    expect(hand.feed(elapsedS, 0.9)![0]).toBeCloseTo(expected, 3);
  });

  it('forgets after a gap the speed and the readings of before', () => {
    const oneEuro = plain({
      despike: { kind: 'median' },
      lowPass: { kind: 'oneEuro', minCutoffHz: 1, beta: 5, speedCutoffHz: 1 },
      hysteresis: { kind: 'drag', widthPct: 2 },
    });
    const used = newHand(1, oneEuro);
    for (let f = 0; f < 9; f++) used.feed(0.01, 0.1 * f);
    const fresh = newHand(1, oneEuro);
    used.feed(1, 0.4);
    fresh.feed(0.01, 0.4);
    expect(used.program.fingers).toEqual(fresh.program.fingers);
  });
});
