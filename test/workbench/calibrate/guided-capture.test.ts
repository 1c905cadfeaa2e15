import { describe, expect, it } from 'vitest';
import { COMMAND_RESTART, COMMAND_STORED } from '../../../protocol/commands.ts';
import { STATUS_UNCALIBRATED } from '../../../protocol/frame.ts';
import type { Fault } from '../../../sim/device/faults.ts';
import { planOfRig } from '../../../workbench/bundle/plan-of-rig.ts';
import { type CaptureStep, guidedCapture } from '../../../workbench/calibrate/guided-capture.ts';
import { type FingerCapture, judgeFinger } from '../../../workbench/calibrate/judge.ts';
import { virtualClock } from '../../../workbench/live/clock.ts';
import { createSession } from '../../../workbench/live/session.ts';
import type { LiveFrame } from '../../../workbench/live/session-types.ts';
import { createSimulatedLink } from '../../../workbench/live/simulated-link.ts';
import { travelOf } from '../../../workbench/live/travel.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const { rig } = readRig('examples/marionette-right.yaml');

/** A simulated board with a hand that does what it is told, or something else. */
function simulate(
  options: { faults?: Fault[]; hand?: (step: CaptureStep, timeS: number, fists: number) => number } = {},
) {
  const hand = options.hand ?? ((step) => (step === 'fist' ? 1 : 0));
  const clock = virtualClock();
  let step: CaptureStep = 'rest';
  let [from, to, startS, fists] = [0, 0, 0, 0];
  const link = createSimulatedLink(
    rig,
    planOfRig(rig),
    {
      seed: 5,
      draw: 1,
      faults: options.faults ?? [],
      motion: (_, timeS) => {
        const target = hand(step, timeS - startS, fists);
        return from + (target - from) * Math.min(1, (timeS - startS) / 0.5);
      },
    },
    clock,
  );
  const listeners = new Set<(frame: LiveFrame) => void>();
  let last: LiveFrame | undefined;
  const session = createSession({
    find: async () => link,
    baud: 115_200,
    framePeriodS: 1 / rig.frameRateHz,
    clock,
    firstTag: 1,
    onFrame(frame) {
      if (frame.kind === 'hand') last = frame;
      for (const listener of listeners) listener(frame);
    },
    onEvent: () => {},
  });
  const turns = async () => {
    for (let i = 0; i < 3; i++) await new Promise((resolve) => setImmediate(resolve));
  };
  const pass = async (seconds: number) => {
    const endS = clock.nowS() + seconds;
    while (clock.nowS() < endS - 1e-9) {
      clock.advance(Math.min(endS, clock.nowS() + 0.05));
      await turns();
    }
    return true;
  };
  /** A command waits for time to pass. */
  const command: typeof session.command = async (...order) => {
    const answer = session.command(...order);
    let isOpen = true;
    void answer.finally(() => {
      isOpen = false;
    });
    for (let i = 0; i < 100 && isOpen; i++) await pass(0.05);
    return answer;
  };
  return {
    session,
    command,
    pass,
    link,
    latest: () => last,
    async capture() {
      session.start();
      await pass(1);
      return guidedCapture<CaptureStep>(rig, {
        command,
        onFrame(listener) {
          listeners.add(listener);
          return () => void listeners.delete(listener);
        },
        wait: pass,
        onStep(next) {
          from = to;
          step = next;
          if (next === 'fist') fists++;
          to = hand(next, 99, fists);
          startS = link.device.nowS();
        },
      });
    },
  };
}

describe('a guided capture on a simulated board', () => {
  it('stores ends within 0.5 % of where the hand was', async () => {
    const board = simulate();
    const result = await board.capture();
    expect(result.words).toMatch(/^Stored: the board has new ends/);
    expect(result.isStored).toBe(true);
    expect(board.latest()!.status & STATUS_UNCALIBRATED).toBe(0);
    // the last step was a fist: every finger now shows its closed end
    await board.pass(1);
    for (let slot = 0; slot < 5; slot++) {
      expect(Math.abs(travelOf(board.latest()!.values[slot]!)! - 1)).toBeLessThan(0.005);
    }
  }, 20_000);

  it('is there again after the board started anew', async () => {
    const board = simulate();
    await board.capture();
    await board.command(COMMAND_RESTART, 255, 0, 0);
    await board.pass(1.5);
    const stored = await board.command(COMMAND_STORED, 0, 0, 0);
    expect([stored.result, stored.answer]).toEqual([0, 1]);
    expect(board.latest()!.status & STATUS_UNCALIBRATED).toBe(0);
    expect(Math.abs(travelOf(board.latest()!.values[1]!)! - 1)).toBeLessThan(0.01);
  }, 20_000);

  it.each([
    [
      'a hand that moves at rest',
      {
        hand: (step: CaptureStep, timeS: number) =>
          step === 'fist' ? 1 : step === 'rest' ? 0.1 + 0.1 * Math.sin(6 * timeS) : 0,
      },
      /moved by \d+\.\d % during the rest; |moved by/,
    ],
    [
      'a fist of a fifth of the way',
      { hand: (step: CaptureStep) => (step === 'fist' ? 0.2 : 0) },
      /moved by (1|2)\d\.\d % of the planned travel/,
    ],
    [
      'a fist that is another one the second time',
      {
        hand: (step: CaptureStep, _: number, fists: number) =>
          step === 'fist' ? (fists === 1 ? 1 : 0.8) : 0,
      },
      /closed came out 2\d\.\d % of the span apart|closed came out 1\d\.\d % of the span apart/,
    ],
    [
      'reversed legs',
      { faults: [{ kind: 'reversed', finger: 'ring', strength: 1 } as Fault] },
      /ring runs backwards/,
    ],
  ])(
    'refuses %s, and the board keeps what it had',
    async (_, options, words) => {
      const board = simulate(options);
      const result = await board.capture();
      expect(result.isStored).toBe(false);
      expect(result.fingers.flatMap(({ problems }) => problems.map(({ seen }) => seen)).join('; ')).toMatch(
        words,
      );
      await board.pass(1);
      const stored = await board.command(COMMAND_STORED, 0, 0, 0);
      // no record, as before
      expect(stored.answer).toBe(0);
      expect(board.latest()!.status & STATUS_UNCALIBRATED).not.toBe(0);
    },
    20_000,
  );
});

/** Poses without noise. */
function poses(change: Partial<FingerCapture> = {}): FingerCapture {
  const still = (level: number) => Array.from({ length: 250 }, () => level);
  return {
    name: 'index',
    rest: still(0.05),
    open: [still(0.05), still(0.05)],
    fist: [still(0.9), still(0.9)],
    ...change,
  };
}
const withGlitches = (level: number, every: number) =>
  Array.from({ length: 250 }, (_, i) => (i % every === every - 1 ? level + 0.4 : level));

describe('the judgement of one finger', () => {
  it('takes the ends where the poses were', () => {
    expect(judgeFinger(poses())).toMatchObject({ isGood: true, open: 0.05, closed: 0.9, glitches: 0 });
  });

  it('leaves single glitches out, 1 in 100, and counts them', () => {
    const judged = judgeFinger(poses({ open: [withGlitches(0.05, 100), withGlitches(0.05, 100)] }));
    // two in each pose, one of them in its last two thirds at place 99, the other at 199
    expect(judged).toMatchObject({ isGood: true, open: 0.05, closed: 0.9 });
    expect(judged.glitches).toBeGreaterThan(0);
  });

  it('sends a finger with a glitch in every 20 samples to the diagnosis', () => {
    const noisy = (level: number) => withGlitches(level, 20);
    const judged = judgeFinger(
      poses({ open: [noisy(0.05), noisy(0.05)], fist: [noisy(0.9), noisy(0.9)], rest: noisy(0.05) }),
    );
    expect(judged.problems[0]).toMatchObject({ next: expect.stringContaining('Diagnose') });
    expect(judged.problems[0]!.seen).toMatch(/single wrong readings/);
  });

  it.each([
    [0.31, true],
    [0.29, false],
  ])('asks for 25 %% of the planned travel: open 0.05, fist %f', (fist, isGood) => {
    const still = Array.from({ length: 250 }, () => fist);
    expect(judgeFinger(poses({ fist: [still, still] })).isGood).toBe(isGood);
  });

  it('wants a wiper that is there', () => {
    const gone = Array.from({ length: 250 }, (_, i) => (i % 2 === 0 ? null : 0.05));
    const judged = judgeFinger(poses({ rest: gone, open: [gone, gone] }));
    expect(judged.isGood).toBe(false);
    expect(judged.problems[0]!.seen).toMatch(/no valid value in 30\.0 % of the frames/);
  });
});
