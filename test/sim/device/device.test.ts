import { describe, expect, it } from 'vitest';
import { commandPacket } from '../../../protocol/command-packet.ts';
import {
  COMMAND_CAPTURE_BEGIN,
  COMMAND_CAPTURE_END,
  COMMAND_RAW,
  COMMAND_RESTART,
  COMMAND_STORE,
  COMMAND_STORED,
  COMMAND_VERSION,
  SUBJECT_ALL,
} from '../../../protocol/commands.ts';
import { createReceiver } from '../../../protocol/receive.ts';
import { createDevice, type Device } from '../../../sim/device/device.ts';
import type { Fault } from '../../../sim/device/faults.ts';
import { FAULT_KINDS } from '../../../sim/device/faults.ts';
import { type HandMotion, puppetScene, resting, slowly } from '../../../sim/device/motions.ts';
import { planOfRig } from '../../../workbench/bundle/plan-of-rig.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const { rig } = readRig('examples/marionette-right.yaml');
const plan = planOfRig(rig);

interface Heard {
  travel: (number | undefined)[][];
  times: number[];
  replies: [command: number, result: number, answer: number][];
  text: string;
  bytes: number[];
  /** Single readings of raw frames, counts. */
  raw: number[];
}

function play(options: { motion?: HandMotion; faults?: Fault[]; seed?: number; draw?: number } = {}) {
  const heard: Heard = { travel: [], times: [], replies: [], text: '', bytes: [], raw: [] };
  const receiver = createReceiver(
    1 / rig.frameRateHz,
    (frame, deviceS) => {
      if (frame.kind === 1) {
        heard.times.push(deviceS);
        heard.travel.push([...frame.values].map((w) => (w === 65535 ? undefined : (w - 6553) / 52429)));
      }
      if (frame.kind === 2) heard.raw.push(...frame.values);
      if (frame.kind === 4) {
        heard.replies.push([frame.values[0]!, frame.values[1]!, frame.values[2]! + 65536 * frame.values[3]!]);
      }
    },
    (byte) => {
      heard.text += String.fromCharCode(byte);
    },
  );
  const device: Device = createDevice(rig, plan, {
    seed: options.seed ?? 1,
    draw: options.draw ?? 1,
    motion: options.motion ?? resting,
    faults: options.faults ?? [],
    onBytes(bytes, atS) {
      heard.bytes.push(...bytes);
      receiver.push(bytes, atS);
    },
  });
  let tag = 0;
  const order = (code: number, subject = SUBJECT_ALL, value = 0) =>
    device.receive(commandPacket({ tag: tag++, code, subject, index: 0, value }));
  return { device, heard, order };
}

const column = (heard: Heard, slot: number) =>
  heard.travel.map((row) => row[slot]).filter((value): value is number => value !== undefined);
const sdOf = (values: number[]) => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length);
};

describe('the simulated controller', () => {
  it('sends its frames at the rig’s rate by its own clock', () => {
    const { device, heard } = play();
    device.advance(5);
    // 100 Hz from the rig file; a few frames go to the first start
    expect(heard.times.length).toBeGreaterThanOrEqual(498);
    const gaps = heard.times.slice(1).map((time, i) => time - heard.times[i]!);
    for (const gap of gaps) expect(gap).toBeCloseTo(0.01, 3);
  });

  it('sends the same bytes for the same seed, others for another', () => {
    const bytes = (seed: number) => {
      const { device, heard } = play({ seed, motion: puppetScene });
      device.advance(3);
      return heard.bytes;
    };
    const first = bytes(7);
    expect(bytes(7)).toEqual(first);
    expect(bytes(8)).not.toEqual(first);
  });

  it('follows the hand: closed fingers are near 1, open ones near 0', () => {
    const { device, heard } = play({ motion: slowly, draw: 0 });
    device.advance(12);
    for (let slot = 0; slot < 5; slot++) {
      const travel = column(heard, slot);
      // nominal parts, so the ends that the program starts with are right but for play
      expect(Math.min(...travel)).toBeGreaterThan(-0.05);
      expect(Math.min(...travel)).toBeLessThan(0.05);
      expect(Math.max(...travel)).toBeGreaterThan(0.93);
      expect(Math.max(...travel)).toBeLessThan(1.05);
    }
  });

  it('answers commands, keeps a stored calibration over a restart, and says what a ROM says', () => {
    const { device, heard, order } = play({ motion: slowly });
    device.advance(1);
    order(COMMAND_VERSION, 0);
    expect(heard.replies.at(-1)).toEqual([COMMAND_VERSION, 0, 256 + plan.facts.programId]);
    order(COMMAND_CAPTURE_BEGIN);
    device.advance(13);
    order(COMMAND_CAPTURE_END);
    // all five fingers moved far enough
    expect(heard.replies.at(-1)).toEqual([COMMAND_CAPTURE_END, 0, 31]);
    order(COMMAND_STORE);
    expect(heard.replies.at(-1)).toEqual([COMMAND_STORE, 0, 0]);
    order(COMMAND_RESTART);
    device.advance(14);
    expect(heard.text).toMatch(/rst:0x1 \(POWERON_RESET\)/);
    order(COMMAND_STORED, 0);
    expect(heard.replies.at(-1)).toEqual([COMMAND_STORED, 0, 1]);
  });

  it('is the same to the byte with faults of no strength', () => {
    const plain = play({ motion: puppetScene });
    const faulty = play({
      motion: puppetScene,
      faults: FAULT_KINDS.map((kind) => ({ kind, finger: 'index', strength: 0 })),
    });
    plain.device.advance(2);
    faulty.device.advance(2);
    expect(faulty.heard.bytes).toEqual(plain.heard.bytes);
  });
});

describe('a fault shows as those who met it describe it', () => {
  const seen = (faults: Fault[], motion: HandMotion, toS: number) => {
    const { device, heard } = play({ faults, motion });
    device.advance(toS);
    return heard;
  };

  it('a lifted wiper: the board says so, or the reading falls through the pull-down', () => {
    const heard = seen([{ kind: 'openWiper', finger: 'index', strength: 1 }], () => 0.5, 5);
    // 100 nF through 100 kΩ: down to a third in 11 ms, and each lift lasts 5 to 80 ms
    const isDown = (value: number | undefined) => value === undefined || value < 0.2;
    expect(heard.travel.filter((row) => isDown(row[1])).length).toBeGreaterThan(20);
    expect(heard.travel.slice(20).filter((row) => isDown(row[2])).length).toBe(0);
  });

  it('a frozen channel stands at one reading', () => {
    const heard = seen([{ kind: 'frozen', finger: 'ring', strength: 1, fromS: 1 }], slowly, 6);
    // frozen open at 1 s; the others are half way
    const last = heard.travel.at(-1)!;
    expect(last[3] === undefined || Math.abs(last[3]) < 0.1).toBe(true);
    expect(last[2]).toBeGreaterThan(0.6);
  });

  it('two plugs swapped: each finger shows its neighbour', () => {
    const heard = seen(
      [{ kind: 'swapped', finger: 'index', strength: 1 }],
      (finger) => (finger === 'index' ? 0.8 : 0.2),
      2,
    );
    const [, index, middle] = heard.travel.at(-1)!;
    expect(middle! - index!).toBeGreaterThan(0.4);
  });

  it('reversed legs: closing goes down', () => {
    const heard = seen([{ kind: 'reversed', finger: 'middle', strength: 1 }], slowly, 6);
    const travel = column(heard, 2);
    expect(travel.at(-1)! - travel[20]!).toBeLessThan(-0.5);
  });

  /** Single readings of a resting finger, counts. */
  const raw = (faults: Fault[]) => {
    const { device, heard, order } = play({ faults, motion: () => 0.5 });
    device.advance(1);
    order(COMMAND_RAW, 1);
    device.advance(5);
    return heard.raw.slice(50);
  };

  it('hum of 40 counts adds 40/sqrt(2) counts of sd to single readings', () => {
    const [quiet, humming] = [sdOf(raw([])), sdOf(raw([{ kind: 'hum', strength: 1 }]))];
    expect(Math.sqrt(humming ** 2 - quiet ** 2)).toBeCloseTo(40 / Math.SQRT2, -1);
  });

  it('odd codes: 85 to 91 of a hundred readings are odd (espressif/esp-idf#164)', () => {
    const readings = raw([{ kind: 'oddCodes', finger: 'index', strength: 1 }]);
    const odd = readings.filter((count) => count % 2 === 1).length / readings.length;
    expect(odd).toBeGreaterThan(0.85);
    expect(odd).toBeLessThan(0.96);
  });

  it('spikes of 300 and more counts: isolated, in 3 of 100 readings', () => {
    const readings = raw([{ kind: 'spikes', finger: 'index', strength: 1 }]);
    const middle = [...readings].sort((a, b) => a - b)[readings.length >> 1]!;
    const share = readings.filter((count) => Math.abs(count - middle) > 250).length / readings.length;
    expect(share).toBeGreaterThan(0.02);
    expect(share).toBeLessThan(0.04);
  });

  it('friction widens the loop between closing and opening', () => {
    const width = (faults: Fault[]) => {
      const heard = seen(faults, slowly, 12);
      const at = (timeS: number) => heard.travel[heard.times.findIndex((t) => t >= timeS)]![1]!;
      // half closed on the way up (1 s rest, 5 s sweep) and on the way down (after 7 s)
      return at(9.5) - at(3.5);
    };
    expect(width([{ kind: 'friction', finger: 'index', strength: 1 }]) - width([])).toBeGreaterThan(0.1);
  });
});
