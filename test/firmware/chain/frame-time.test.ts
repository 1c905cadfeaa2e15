import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FingerState, fingerWord, newFingerState } from '../../../firmware/chain/finger.ts';
import { stepHand } from '../../../firmware/chain/hand.ts';
import { prepare } from '../../../firmware/chain/prepare.ts';
import type { Settings } from '../../../firmware/chain/settings.ts';
import { evenly } from '../../sim/evenly.ts';
import { anySettings, plain } from '../../sim/study/any-settings.ts';

const ENDS = { open: 0.1, closed: 0.6 };
const PERIOD_S = 0.01;
const GAP_S = 0.1;
const SMOOTH = plain({ lowPass: { kind: 'exponential', cutoffHz: 2 } });

/** A hand of one setting on every finger; feeds closures and gives closures back. */
function newHand(fingers: number, settings: Settings) {
  const states = Array.from({ length: fingers }, newFingerState);
  const constants = states.map(() => prepare(settings, PERIOD_S, ENDS));
  const scale = settings.oversampling * (ENDS.closed - ENDS.open);
  return {
    states,
    constants,
    feed(elapsedS: number, ...closures: number[]): boolean {
      const readings = closures.map((c) => settings.oversampling * ENDS.open + c * scale);
      return stepHand(states, readings, constants, elapsedS, GAP_S);
    },
    closures: () => states.map((s) => (s.held - settings.oversampling * ENDS.open) / scale),
  };
}

function copyOf(states: FingerState[]): FingerState[] {
  return states.map((s) => ({ ...s }));
}

describe('frames and their times', () => {
  it('takes the first reading as it is, without a ramp from nought', () => {
    fc.assert(
      fc.property(anySettings, evenly(-0.1, 1.1), (settings, first) => {
        const hand = newHand(2, settings);
        expect(hand.feed(PERIOD_S, first, 1 - first)).toBe(true);
        expect(hand.closures()[0]).toBeCloseTo(first, 12);
        expect(hand.closures()[1]).toBeCloseTo(1 - first, 12);
        for (let f = 0; f < 5; f++) hand.feed(PERIOD_S, first, 1 - first);
        expect(hand.closures()[0]).toBeCloseTo(first, 12);
      }),
    );
  });

  // Equal and backward timestamps broke the rate of a published filter: casiez/OneEuroFilter#2.
  it.each([0, -0.01, -1000, Number.NaN])('skips a frame %d s after the last: nothing changes', (elapsedS) => {
    fc.assert(
      fc.property(anySettings, evenly(0, 1), evenly(0, 1), (settings, before, wrong) => {
        const hand = newHand(1, settings);
        hand.feed(PERIOD_S, before);
        hand.feed(PERIOD_S, before + 0.05);
        const kept = copyOf(hand.states);
        expect(hand.feed(elapsedS, wrong)).toBe(false);
        expect(hand.states).toEqual(kept);
      }),
      { numRuns: 30 },
    );
  });

  it('skips a first frame whose clock stands still and takes the next as the first', () => {
    const hand = newHand(1, SMOOTH);
    expect(hand.feed(0, 0.9)).toBe(false);
    hand.feed(PERIOD_S, 0.3);
    expect(hand.closures()[0]).toBeCloseTo(0.3, 12);
  });

  it.each([
    [0.1, 0.9],
    [0.35, 0.9],
    [3600, 0.9],
    // Just short of a gap the filter goes on: 0.3 and the 0.118 of a 2 Hz average at 100 Hz of the way to 0.9.
    [0.0999, 0.3 + 0.6 * 0.118],
  ])('after a silence of %d s is at %d', (elapsedS, expected) => {
    const hand = newHand(1, SMOOTH);
    for (let f = 0; f < 4; f++) hand.feed(PERIOD_S, 0.3);
    expect(hand.feed(elapsedS, 0.9)).toBe(true);
    expect(hand.closures()[0]).toBeCloseTo(expected, 3);
  });

  it('forgets after a gap the speed and the readings of before', () => {
    const oneEuro = plain({
      despike: { kind: 'median' },
      lowPass: { kind: 'oneEuro', minCutoffHz: 1, beta: 5, speedCutoffHz: 1 },
      hysteresis: { kind: 'drag', widthPct: 2 },
    });
    const used = newHand(1, oneEuro);
    for (let f = 0; f < 9; f++) used.feed(PERIOD_S, 0.1 * f);
    const fresh = newHand(1, oneEuro);
    used.feed(1, 0.4);
    fresh.feed(PERIOD_S, 0.4);
    expect(used.states).toEqual(fresh.states);
  });

  it('keeps the last value of a finger without a valid reading, and the others go on', () => {
    const hand = newHand(3, SMOOTH);
    hand.feed(PERIOD_S, 0.2, 0.5, Number.NaN);
    expect(hand.states[2].started).toBe(0);
    const kept = { ...hand.states[1] };
    for (let f = 0; f < 400; f++) expect(hand.feed(PERIOD_S, 0.8, Number.NaN, Number.NaN)).toBe(true);
    expect(hand.states[1]).toEqual(kept);
    expect(hand.closures()[0]).toBeCloseTo(0.8, 6);
    // The third finger's first valid reading is its start.
    hand.feed(PERIOD_S, 0.8, 0.5, 0.7);
    expect(hand.closures()[2]).toBeCloseTo(0.7, 12);
    expect(hand.closures()[1]).toBeCloseTo(0.5, 12);
  });

  it('never lets a NaN into the words, whenever it comes', () => {
    const value = fc.option(evenly(0, 1), { nil: Number.NaN, freq: 2 });
    fc.assert(
      fc.property(anySettings, fc.array(value, { minLength: 1, maxLength: 40 }), (settings, values) => {
        const hand = newHand(1, settings);
        hand.feed(PERIOD_S, 0.5);
        for (const v of values) hand.feed(PERIOD_S, v);
        const word = fingerWord(hand.states[0], hand.constants[0]);
        expect(word).toBeGreaterThanOrEqual(6553);
        expect(word).toBeLessThan(58983.5);
      }),
    );
  });
});
