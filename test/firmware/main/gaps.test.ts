import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Settings } from '../../../firmware/chain/settings.ts';
import type { BoardPlan } from '../../../firmware/main/board-plan.ts';
import { decodeFrame } from '../../../protocol/decode.ts';
import { createFrame, KIND_HAND } from '../../../protocol/frame.ts';
import { startHostProgram } from '../../../sim/board/host-program.ts';
import { evenly } from '../../sim/evenly.ts';
import { anySettings, plain } from '../../sim/study/any-settings.ts';

const ENDS = { open: 0.1, closed: 0.6 };
const SMOOTH = plain({ lowPass: { kind: 'exponential', cutoffHz: 2 } });

/** A board with fingers of one setting: feed closures, get travel back from the frames it sends. */
function newHand(fingers: number, settings: Settings) {
  const plan: BoardPlan = {
    settings,
    frameRateHz: 100,
    facts: { programId: 1, settingsId: 1, rightHand: true },
    fingers: Array.from({ length: fingers }, (_, slot) => ({
      slot,
      pin: 32 + slot,
      channel: -1,
      ends: ENDS,
      openBelow: 0,
    })),
    dummyRead: false,
    rail: undefined,
    axisPins: [],
    buttonPins: [],
    selectPins: [],
    watched: false,
    watchdogS: 0,
    attenuationMv: 3600,
    frameUart: 'console',
  };
  let nowS = 100;
  let closures = [0, 0, 0, 0, 0];
  const travels: number[][] = [];
  const frame = createFrame();
  const board = startHostProgram(plan, {
    analogRead: (pin) => ENDS.open + closures[pin - 32]! * (ENDS.closed - ENDS.open),
    digitalRead: () => 1,
    digitalWrite: () => {},
    getTime: () => nowS,
    write: (bytes) => {
      decodeFrame(bytes, 0, frame);
      if (frame.kind === KIND_HAND) travels.push([...frame.values].map((v) => (v - 6553) / 52429));
    },
    storage: { readArrayBuffer: () => undefined, write: () => true, getFree: () => 0 },
    programCrc: () => 0,
    setTicking: () => {},
    reload: () => {},
  });
  return {
    program: board.program,
    /** @returns travel of the frame sent; undefined when none was */
    feed(elapsedS: number, ...next: number[]): number[] | undefined {
      nowS += elapsedS;
      closures = next;
      const before = travels.length;
      board.tick();
      return travels[before];
    },
  };
}

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
