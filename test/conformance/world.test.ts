import { describe, expect, it } from 'vitest';
import { decodeFrame, isFrameAt } from '../../protocol/decode.ts';
import { createFrame, type Frame } from '../../protocol/frame.ts';
import { CHAIN, choices, LEVELS } from './choices.ts';
import { GOLDEN_CASES, GOLDEN_STEPS } from './golden.ts';
import { cases } from './plans.ts';
import { runHost } from './runs.ts';

function framesOf(list: string[]): Frame[] {
  return list.map((text) => {
    const bytes = Uint8Array.from(Buffer.from(text, 'hex'));
    const frame = createFrame();
    expect(isFrameAt(bytes, 0)).toBe(true);
    decodeFrame(bytes, 0, frame);
    return { ...frame, values: frame.values.slice() };
  });
}

// A comparison of runs in which nothing happens proves nothing: what the runs are made of.
const RUNS = cases(GOLDEN_CASES, GOLDEN_STEPS).map((one) => {
  const outcome = runHost(one, GOLDEN_STEPS, []);
  return { one, outcome, frames: framesOf(outcome.frames) };
});
const FRAMES = RUNS.flatMap((run) => run.frames);
const sorted = <T>(list: Iterable<T>) => [...new Set(list)].sort((a, b) => Number(a) - Number(b));

describe('the compared rigs', () => {
  const all = choices(GOLDEN_CASES);

  it.each(Object.keys(LEVELS) as (keyof typeof LEVELS)[])('have every kind of %s', (key) => {
    expect(new Set(all.map((one) => one[key])).size).toBe(LEVELS[key].length);
  });

  it('have every pair of despike, low-pass and hysteresis', () => {
    for (const a of CHAIN)
      for (const b of CHAIN) {
        if (a >= b) continue;
        const pairs = new Set(all.map((one) => `${one[a]} ${one[b]}`));
        expect(pairs.size, `${a} and ${b}`).toBe(LEVELS[a].length * LEVELS[b].length);
      }
  });

  it('stay the same when more are added', () => {
    expect(choices(GOLDEN_CASES + 3).slice(0, GOLDEN_CASES)).toEqual(all);
  });
});

describe('what happens to the compared rigs', () => {
  it('gives all kinds of frames, each rig hand, health and reply frames', () => {
    expect(sorted(FRAMES.map((f) => f.kind))).toEqual([1, 2, 3, 4]);
    for (const { one, frames } of RUNS) {
      expect(sorted(frames.map((f) => f.kind)), one.name).toEqual(expect.arrayContaining([1, 3, 4]));
      expect(frames.filter((f) => f.kind === 1).length).toBeGreaterThan(0.85 * GOLDEN_STEPS);
    }
  });

  it('has all commands done, and all results', () => {
    const replies = FRAMES.filter((f) => f.kind === 4);
    const done = replies.filter((f) => f.values[1] === 0).map((f) => f.values[0]);
    expect(sorted(done)).toEqual(Array.from({ length: 14 }, (_, i) => i + 1));
    expect(sorted(replies.map((f) => f.values[1]))).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('has captures that found ends, and states of slots of all kinds', () => {
    const answers = (command: number) =>
      FRAMES.filter((f) => f.kind === 4 && f.values[0] === command && f.values[1] === 0).map(
        (f) => f.values[2]!,
      );
    expect(Math.max(...answers(7))).toBe(0b11111);
    // each slot's state: valid, absent, damaged, other settings, other hand
    expect(sorted(answers(9).map((states) => states & 15))).toEqual(expect.arrayContaining([0, 1, 2, 5]));
    expect(sorted(answers(9).map((states) => (states >> 4) & 15))).toEqual(
      expect.arrayContaining([0, 1, 2, 4]),
    );
    // stored without room, with a store that lies, with one that throws: done, unchanged, no room, not written, kept
    const stores = FRAMES.filter((f) => f.kind === 4 && f.values[0] === 8 && f.values[1] !== 2);
    expect(sorted(stores.map((f) => f.values[2]))).toEqual([0, 1, 2, 3, 4]);
  });

  it('sets and clears every status bit that a program has', () => {
    for (const bit of [1, 4, 8]) {
      const set = FRAMES.filter((f) => f.status & bit).length;
      expect(set, `bit ${bit}`).toBeGreaterThan(20);
      expect(set, `bit ${bit}`).toBeLessThan(FRAMES.length - 20);
    }
  });

  it('has wipers come off and freeze where they are watched, and come back', () => {
    for (const { one, frames } of RUNS) {
      const hands = frames.filter((f) => f.kind === 1);
      for (const [n, finger] of one.plan.fingers.entries()) {
        const values = hands.map((f) => f.values[finger.slot]!);
        const invalid = values.filter((v) => v === 65535).length;
        if (!one.plan.watched) expect(invalid, one.name).toBe(0);
        else if (one.plan.selectPins.length === 0 && n % 3 === 0 && finger.openBelow > 0) {
          // off for 40 of 700 steps; the low-pass comes behind
          expect(invalid, `${one.name} ${n}`).toBeGreaterThan(5);
          expect(values.at(-1), one.name).not.toBe(65535);
        }
      }
    }
    const frozen = RUNS.filter(({ one, frames }) => {
      const second = one.plan.fingers[1];
      return (
        second &&
        one.plan.watched &&
        one.plan.selectPins.length === 0 &&
        frames.some((f) => f.kind === 1 && f.values[second.slot] === 65535)
      );
    });
    expect(frozen.length).toBeGreaterThan(1);
  });

  it('presses all buttons, moves both axes, saturates words at both ends', () => {
    expect(FRAMES.reduce((bits, f) => bits | f.buttons, 0)).toBe(15);
    const hands = FRAMES.filter((f) => f.kind === 1);
    expect(new Set(hands.map((f) => f.joystickX)).size).toBeGreaterThan(200);
    expect(new Set(hands.map((f) => f.joystickY)).size).toBeGreaterThan(200);
    expect(hands.some((f) => f.values.includes(0))).toBe(true);
    expect(hands.some((f) => f.values.includes(65534))).toBe(true);
  });

  it('leaves steps out, repeats times and sets the clock back', () => {
    for (const { one, frames } of RUNS) {
      const steps = frames.slice(1).map((f, i) => (f.sequence - frames[i]!.sequence + 256) % 256);
      expect(new Set(steps).has(2), one.name).toBe(true);
      const back = frames
        .slice(1)
        .filter((f, i) => (f.timeSteps - frames[i]!.timeSteps + 65536) % 65536 > 40000);
      expect(back.length, one.name).toBeGreaterThanOrEqual(3);
    }
  });

  it('writes files, and not where there is no room', () => {
    const bytes = RUNS.map(({ one, outcome }) => ({
      fault: one.choice.storeFault,
      files: outcome.files.join(),
    }));
    expect(
      bytes.filter(({ fault, files }) => fault === 'none' && files.length >= 216).length,
    ).toBeGreaterThan(3);
    for (const { one, outcome } of RUNS) {
      if (one.choice.storeFault !== 'full') continue;
      const before = one.world.files.map(([name, data]) => `${name} ${Buffer.from(data).toString('hex')}`);
      expect(outcome.files, one.name).toEqual(before);
    }
  });
});
