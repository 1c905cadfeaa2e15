import { describe, expect, it } from 'vitest';
import {
  COMMAND_CAPTURE_BEGIN,
  COMMAND_CAPTURE_END,
  COMMAND_COUNTER,
  COMMAND_RAW,
  COMMAND_SET,
  COMMAND_START,
  COMMAND_STOP,
  COMMAND_STORE,
  COMMAND_ZERO,
  NUMBER_BASE,
  NUMBER_WORD_GAIN,
} from '../../../protocol/commands.ts';
import {
  KIND_HEALTH,
  RESULT_BAD_ARGUMENT,
  RESULT_DONE,
  RESULT_FAILED,
  RESULT_NOT_NOW,
} from '../../../protocol/frame.ts';
import { plain } from '../../sim/study/any-settings.ts';
import { newHand } from './simulated-hand.ts';

// Expected words are the frame's definition (6553 at the open end, 58982 at the closed one); the rest is worked out by
// hand beside each check.
const PLAIN = plain({});
const STILL = plain({
  lowPass: { kind: 'adaptive', restCutoffHz: 1, riseHz: 60 },
  hysteresis: { kind: 'still', widthPct: 1 },
});
const UNCALIBRATED = 8;

/** Moves all fingers from open to closed and holds them there, then a second more. */
function grasp(hand: ReturnType<typeof newHand>): void {
  for (let i = 0; i <= 20; i++) hand.tick(0.01, i / 20, i / 20);
  for (let i = 0; i < 100; i++) hand.tick(0.01, 1, 1);
}

describe('a capture', () => {
  it('puts the words of a resting hand right at once', () => {
    const hand = newHand(2, STILL);
    // the hand closes to 0.8 of what the program takes for closed
    for (let i = 0; i < 50; i++) hand.tick(0.01, 0, 0);
    expect(hand.command(COMMAND_CAPTURE_BEGIN)[0]).toBe(RESULT_DONE);
    for (let i = 0; i <= 20; i++) hand.tick(0.01, (0.8 * i) / 20, (0.8 * i) / 20);
    for (let i = 0; i < 200; i++) hand.tick(0.01, 0.8, 0.8);
    expect(hand.command(COMMAND_CAPTURE_END)).toEqual([RESULT_DONE, 0b11]);
    const frame = hand.tick(0.01, 0.8, 0.8)!;
    // within half the still band, 0.5 % of 52429
    expect(Math.abs(frame.values[0]! - 58982)).toBeLessThan(270);
  });

  it('takes no spike for an end', () => {
    const hand = newHand(2, plain({ despike: { kind: 'median' } }));
    for (let i = 0; i < 5; i++) hand.tick(0.01, 0, 0);
    hand.command(COMMAND_CAPTURE_BEGIN);
    grasp(hand);
    hand.tick(0.01, -0.2, 1);
    for (let i = 0; i < 5; i++) hand.tick(0.01, 1, 1);
    hand.command(COMMAND_CAPTURE_END);
    expect(hand.tick(0.01, 1, 1)!.values[0]).toBe(58982);
    hand.tick(0.01, 0, 0);
    expect(hand.tick(0.01, 0, 0)!.values[0]).toBe(6553);
  });

  it.each([
    ['stopped', COMMAND_STOP],
    ['sending raw frames', COMMAND_RAW],
  ])('is not begun while the board is %s, and zero is not set', (_, code) => {
    const hand = newHand(2, PLAIN);
    hand.tick(0.01, 0.3, 0.3);
    hand.command(code, 0);
    expect(hand.command(COMMAND_CAPTURE_BEGIN)[0]).toBe(RESULT_NOT_NOW);
    expect(hand.command(COMMAND_ZERO)[0]).toBe(RESULT_NOT_NOW);
  });
});

describe('zero', () => {
  it('makes the present position the open end, whatever the rail gives', () => {
    const hand = newHand(1, PLAIN, { rail: { pin: 39, nominal: 0.5, supplyMv: 3300 } });
    hand.rail = { reading: 0.45, share: 0.9 };
    hand.tick(0.01, 0.3);
    expect(hand.command(COMMAND_ZERO, 0)[0]).toBe(RESULT_DONE);
    expect(hand.tick(0.01, 0.3)!.values[0]).toBe(6553);
    // the closed end stays where it was
    expect(hand.tick(0.01, 1)!.values[0]).toBe(58982);
  });
});

describe('storing', () => {
  it('refuses where nothing was captured, and leaves the status', () => {
    const hand = newHand(2, PLAIN);
    hand.tick(0.01, 0, 0);
    // not now with bad ends: SPEC.md, answer 5
    expect(hand.command(COMMAND_STORE)).toEqual([RESULT_FAILED, 5]);
    expect(hand.files.size).toBe(0);
    expect(hand.tick(0.01, 0, 0)!.status & UNCALIBRATED).toBe(UNCALIBRATED);
  });

  it('of one finger of two leaves the hand uncalibrated, of both not', () => {
    const hand = newHand(2, PLAIN);
    hand.tick(0.01, 0.1, 0.1);
    for (const [finger, status] of [
      [0, UNCALIBRATED],
      [1, 0],
    ] as const) {
      hand.command(COMMAND_ZERO, finger);
      expect(hand.command(COMMAND_STORE)).toEqual([RESULT_DONE, 0]);
      expect(hand.tick(0.01, 0.1, 0.1)!.status & UNCALIBRATED).toBe(status);
    }
  });
});

describe('a live number', () => {
  it.each([
    [NUMBER_BASE, 0],
    [NUMBER_BASE, 0.99],
    [NUMBER_WORD_GAIN, 1e300],
    [NUMBER_WORD_GAIN, 0],
  ])('%d cannot be %d: it would stay in the words for good', (index, value) => {
    const hand = newHand(1, STILL);
    hand.tick(0.01, 0.5);
    expect(hand.command(COMMAND_SET, 0, index, value)[0]).toBe(RESULT_BAD_ARGUMENT);
    for (let i = 0; i < 200; i++) hand.tick(0.01, 1);
    expect(Math.abs(hand.tick(0.01, 1)!.values[0]! - 58982)).toBeLessThan(270);
  });
});

describe('a frozen finger', () => {
  it('stays invalid for minutes while others move, and is valid again when it moves', () => {
    const hand = newHand(3, PLAIN, { watched: true });
    let second = Number.NaN;
    const move = (i: number) => 0.5 + 0.5 * Math.sin(i / 40);
    let since = -1;
    for (let i = 0; i < 20_000; i++) {
      second = hand.tick(0.01, move(i), 0.4, move(i + 20))!.values[1]!;
      if (second === 65535 && since < 0) since = i;
      if (since >= 0) expect(second, `tick ${i}`).toBe(65535);
    }
    // 10 looks, each 8th frame, at each third finger: 240 frames, and as many again at most until the first
    expect(since).toBeGreaterThan(200);
    expect(since).toBeLessThan(500);
    for (let i = 0; i < 60; i++) second = hand.tick(0.01, 0.2, 0.41 + i / 1000, 0.3)!.values[1]!;
    expect(Math.abs(second - (6553 + 52429 * 0.469))).toBeLessThan(2);
  });

  it('is none at an end of the converter, where all readings are alike', () => {
    const hand = newHand(3, PLAIN, { watched: true });
    for (let i = 0; i < 2000; i++) {
      // closure -0.2 is a reading of 0
      const frame = hand.tick(0.01, 0.5 + 0.5 * Math.sin(i / 40), -0.2, 0.5)!;
      expect(frame.values[1]).toBe(0);
    }
  });
});

describe('a board whose pins fail', () => {
  it('tells so in a health frame each second', () => {
    const hand = newHand(1, PLAIN);
    hand.tick(0.01, 0.5);
    hand.fails = true;
    for (let i = 0; i < 500; i++) hand.tick(0.01, 0.5);
    const health = hand.frames.filter((frame) => frame.kind === KIND_HEALTH);
    expect(health).toHaveLength(5);
    expect(health[4]!.values[3]).toBe(499);
    expect(hand.command(COMMAND_COUNTER, 1)).toEqual([RESULT_DONE, 500]);
  });
});

describe('a stop and a start', () => {
  it('make no frame late', () => {
    const hand = newHand(1, PLAIN);
    hand.tick(0.01, 0.5);
    hand.command(COMMAND_STOP);
    expect(hand.isTicking).toBe(false);
    hand.tick(30, 0.5);
    hand.command(COMMAND_START);
    expect(hand.isTicking).toBe(true);
    expect(hand.tick(0.01, 0.5)!.status & 4).toBe(0);
  });
});
