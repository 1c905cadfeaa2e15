/** A program on the interpreter as on a board: its own timer, clock, console and file store. Only the pins are made up. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type CommandOutcome, createCommandSender } from '../../protocol/command-sender.ts';
import { crc32 } from '../../protocol/crc32.ts';
import { createFrame, type Frame } from '../../protocol/frame.ts';
import { createReceiver, type ReceiveCounters } from '../../protocol/receive.ts';
import { CHOICE_FILE, PROGRAM_FILE, START_CODE } from '../../workbench/serial/load/board-files.ts';
import { interpreter, noInterpreter } from '../interpreter.ts';
import { madeProgram } from './made-program.ts';
import { cases } from './plans.ts';

/**
 * Readings that differ from pin to pin and stay; every third second the hand closes a little. The idle timer: this build
 * ends when no timer is left, as after "stop"; a board goes on.
 */
const PINS =
  'setInterval(function(){},1000000);function analogRead(pin){return (700+pin*10+(getTime()%3>2?300:0))/4096}\n';
const FRAME_RATE_HZ = 100;

interface Seen {
  frame: Frame;
  deviceS: number;
  step: number;
}

interface LiveRun {
  frames: Seen[];
  outcomes: CommandOutcome[];
  counters: ReceiveCounters;
  /** What came between the frames, without the start's words. */
  stray: string;
  tookS: number;
}

/** A command, or something to wait for. */
type Order =
  | [code: number, subject: number, index: number, value: number]
  | 'until it has sent for three seconds'
  | 'until it has started anew';

/** The interpreter's Linux build went away by itself: it does so now and then ("len <= 64", jsdevices.c:601 of c5ff787). */
class EndedError extends Error {}
const TRIES = 3;

/** Tries again when the interpreter ended, for no other reason. */
async function tryLive(program: string, commands: Order[]): Promise<LiveRun> {
  for (let left = TRIES; ; left--) {
    try {
      return await runLive(program, commands);
    } catch (error) {
      if (left <= 1 || !(error instanceof EndedError)) throw error;
    }
  }
}

/** Starts the program as `load` leaves it, and sends it a command after the other. */
async function runLive(program: string, commands: Order[]): Promise<LiveRun> {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-live-'));
  const start = `
var s=require("Storage");
s.write("${PROGRAM_FILE}a",${JSON.stringify(program)});s.write("${CHOICE_FILE}","a");
s.write(".bootcde",${JSON.stringify(START_CODE)});
print("BEGIN");load();`;
  writeFileSync(join(folder, 'start.js'), start);
  const board = spawn(interpreter, ['start.js'], { cwd: folder, stdio: ['pipe', 'pipe', 'ignore'] });
  const frames: Seen[] = [];
  const outcomes: CommandOutcome[] = [];
  let stray = '';
  const began = performance.now();
  const nowS = () => (performance.now() - began) / 1000;
  try {
    return await new Promise((resolve, reject) => {
      const left = [...commands];
      const sender = createCommandSender(
        77,
        0.5,
        4,
        (packet) => void board.stdin.write(packet),
        (outcome) => outcomes.push(outcome),
      );
      const receiver = createReceiver(
        1 / FRAME_RATE_HZ,
        (frame, deviceS, step) => {
          frames.push({ frame: { ...createFrame(), ...frame, values: frame.values.slice() }, deviceS, step });
          sender.frame(frame);
        },
        (byte) => {
          stray += String.fromCharCode(byte);
        },
      );
      board.stdin.on('error', () => {});
      board.stdout.on('data', (bytes: Uint8Array) => receiver.push(bytes, nowS()));
      board.on('exit', (code, signal) => {
        clearInterval(timer);
        const done = outcomes.map((one) => `${one.code}:${one.result}`).join(' ');
        reject(
          new EndedError(
            `ended (${signal ?? code}) after ${frames.length} frames, commands ${done}: ${stray.slice(-300)}`,
          ),
        );
      });
      const timer = setInterval(() => {
        sender.tick(nowS());
        if (sender.isWaiting() || frames.length < 40) {
          if (nowS() < 15) return;
        } else {
          const next = left[0];
          if (typeof next === 'string') {
            const isSo = next.endsWith('anew')
              ? receiver.counters().restarts > 0
              : frames.length > 3 * FRAME_RATE_HZ;
            if (isSo) left.shift();
            if (nowS() < 15) return;
          } else if (next) {
            left.shift();
            sender.send(...next, nowS());
            return;
          }
        }
        clearInterval(timer);
        board.removeAllListeners('exit');
        resolve({
          frames,
          outcomes,
          counters: receiver.counters(),
          stray: stray.replace(/^[\s\S]*?BEGIN/, ''),
          tookS: nowS(),
        });
      }, 50);
    });
  } finally {
    board.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

describe.skipIf(noInterpreter)('a program on the interpreter, with its own timer', () => {
  it('sends its frames at its rate, a health frame each second, and answers commands between them', async () => {
    const plan = { ...cases(1, 1)[0]!.plan, frameRateHz: FRAME_RATE_HZ };
    const { text } = await madeProgram(plan);
    const program = PINS + text;
    const live = await tryLive(program, [
      [1, 0, 0, 0],
      [1, 1, 0, 0],
      [11, 255, 0, 0],
      [3, 1, 7, 0.1],
      [4, 1, 7, 0],
      [4, 1, 7, 1],
      [10, 255, 0, 0],
      [8, 255, 0, 0],
      [9, 0, 0, 0],
      [9, 1, 0, 0],
      [5, 2, 0, 0],
      [5, 255, 0, 0],
      [12, 255, 0, 0],
      [13, 255, 0, 0],
      [2, 0, 0, 0],
      [2, 1, 0, 0],
      [2, 2, 0, 0],
      'until it has sent for three seconds',
      [3, 1, 7, 0.1],
      [14, 255, 0, 0],
      'until it has started anew',
      [4, 1, 7, 0],
      [4, 1, 7, 1],
      [9, 1, 0, 0],
    ]);
    const { frames, outcomes, counters } = live;

    // every command, done once, with what SPEC.md says
    const tenth = new Uint32Array(Float64Array.of(0.1).buffer);
    const answers = [
      256 + plan.facts.programId,
      plan.facts.settingsId,
      crc32(Buffer.from(program, 'latin1')) >>> 0,
    ];
    // the second finger: pin 33, open where the smoothed level was at "zero", on its way between two readings
    const closed = Math.fround(plan.fingers[1]!.ends.closed);
    const [least, most] = [1030, 1330].map((open) => 52429 / (8 * (closed - open / 4096)));
    expect(outcomes.map(({ result }) => result)).toEqual(outcomes.map(() => 0));
    expect(outcomes.map(({ answer }) => answer)).toEqual([
      ...answers,
      0,
      tenth[0],
      tenth[1],
      0,
      0,
      1,
      // slot 0 valid, slot 1 absent, slot 0 in use
      0 + 16 * 1 + 256 * 1,
      ...[0, 0, 0, 0, 0, 0, 0, 0, 0],
      // started anew: the word gain is no longer the 0.1 that it was told, but that of the stored ends
      expect.any(Number),
      expect.any(Number),
      0 + 16 * 1 + 256 * 1,
    ]);
    const [low, high] = outcomes.slice(-3).map(({ answer }) => answer);
    const gain = new Float64Array(Uint32Array.of(low!, high!).buffer)[0]!;
    expect(gain).toBeGreaterThanOrEqual(least!);
    expect(gain).toBeLessThanOrEqual(most!);

    // nothing but frames and the interpreter's acknowledgements
    expect([...live.stray].filter((c) => c !== '\x06' && c > ' ').join('')).not.toMatch(
      /Error|at line|ASSERT/,
    );
    expect(counters).toMatchObject({ falseSync: 0, unknownKind: 0, duplicates: 0, restarts: 1 });

    // hand frames 10 ms apart; the median, because the machine may be busy
    const hands = frames.filter(({ frame }) => frame.kind === 1);
    const apart = hands.slice(1).map(({ deviceS }, i) => deviceS - hands[i]!.deviceS);
    expect(apart.sort((a, b) => a - b)[apart.length >> 1]).toBeCloseTo(0.01, 3);

    const startAt = frames.findLastIndex(({ frame }) => frame.sequence === 1 && frame.timeSteps < 1000);
    expect(startAt).toBeGreaterThan(100);
    const first = frames.slice(0, startAt);
    const health = first.filter(({ frame }) => frame.kind === 3);
    expect(health.length).toBeGreaterThanOrEqual(2);
    for (const [i, { frame }] of health.entries()) {
      expect([...frame.values]).toEqual([65535, 65535, 0, 0, 256 + plan.facts.programId]);
      expect(frame.joystickX).toBe(FRAME_RATE_HZ);
      if (i === 0) continue;
      const between = frames.slice(frames.indexOf(health[i - 1]!) + 1, frames.indexOf(health[i]!));
      expect(between.filter((one) => one.frame.kind < 3)).toHaveLength(FRAME_RATE_HZ);
    }

    // raw frames of the third finger: pin 34, counts as the pin gives them
    const raws = frames.filter(({ frame }) => frame.kind === 2);
    expect(raws.length).toBeGreaterThan(1);
    for (const { frame } of raws) {
      expect(frame.joystickX).toBe(2);
      expect([1040, 1340]).toContain(frame.values[0]);
    }

    // calibrated by "store", before that not; after the start anew from its first frame on
    expect(first[0]!.frame.status & 9).toBe(8);
    expect(first.at(-1)!.frame.status & 9).toBe(0);
    expect(frames[startAt]!.frame.status & 9).toBe(0);
  });
});
