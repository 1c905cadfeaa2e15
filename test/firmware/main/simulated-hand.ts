import type { Settings } from '../../../firmware/chain/settings.ts';
import type { BoardPlan } from '../../../firmware/main/board-plan.ts';
import { commandText } from '../../../protocol/command-packet.ts';
import { decodeFrame } from '../../../protocol/decode.ts';
import { createFrame, type Frame, KIND_HAND } from '../../../protocol/frame.ts';
import { startHostProgram } from '../../../sim/board/host-program.ts';

export const ENDS = { open: 0.1, closed: 0.6 };
const FIRST_PIN = 32;

/**
 * A board whose fingers have one setting: feed closures, get frames back.
 * @param change of the plan
 */
export function newHand(fingers: number, settings: Settings, change: Partial<BoardPlan> = {}) {
  const plan: BoardPlan = {
    settings,
    frameRateHz: 100,
    facts: { programId: 1, settingsId: 1, rightHand: true },
    fingers: Array.from({ length: fingers }, (_, slot) => ({
      slot,
      pin: FIRST_PIN + slot,
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
    ...change,
  };
  let nowS = 100;
  let closures: number[] = [0, 0, 0, 0, 0];
  let tag = 0;
  const frames: Frame[] = [];
  const files = new Map<string, Uint8Array>();
  const hand = {
    /** Reading of the rail's pin, and what a reading is multiplied by: potentiometers hang on the rail. */
    rail: { reading: 0, share: 1 },
    /** Thrown by the next reads. */
    fails: false,
    frames,
    files,
    isTicking: false,
    /** @returns the hand frame sent by this tick; undefined when none was */
    tick(elapsedS: number, ...next: number[]): Frame | undefined {
      nowS += elapsedS;
      closures = next;
      const before = frames.length;
      if (hand.isTicking) board.tick();
      return frames.slice(before).find((frame) => frame.kind === KIND_HAND);
    },
    /** @returns travel of the fingers in the frame sent; undefined when none was */
    feed(elapsedS: number, ...next: number[]): number[] | undefined {
      const frame = hand.tick(elapsedS, ...next);
      return frame && [...frame.values].map((v) => (v - 6553) / 52429);
    },
    /** Sends a command. @returns result and answer */
    command(code: number, subject = 255, index = 0, value = 0): [result: number, answer: number] {
      board.packet(commandText({ tag: tag++, code, subject, index, value }));
      const { values } = frames[frames.length - 1]!;
      return [values[1]!, values[2]! + 65536 * values[3]!];
    },
  };
  const board = startHostProgram(plan, {
    analogRead(pin) {
      if (hand.fails) throw new Error('the pin does not answer');
      if (pin === plan.rail?.pin) return hand.rail.reading;
      return (ENDS.open + closures[pin - FIRST_PIN]! * (ENDS.closed - ENDS.open)) * hand.rail.share;
    },
    digitalRead: () => 1,
    digitalWrite: () => {},
    getTime: () => nowS,
    write(bytes) {
      const frame = createFrame();
      decodeFrame(bytes, 0, frame);
      frames.push(frame);
    },
    storage: {
      readArrayBuffer: (name) => files.get(name)?.slice().buffer as ArrayBuffer | undefined,
      write(name, data) {
        files.set(name, Uint8Array.from(data));
        return true;
      },
      getFree: () => 100_000,
    },
    programCrc: () => 0,
    setTicking(on) {
      hand.isTicking = on;
    },
    reload: () => {},
  });
  return Object.assign(hand, { program: board.program });
}
