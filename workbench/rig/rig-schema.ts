import { z } from 'zod';
import { BOARD_IDS } from '../../firmware/boards/board.ts';
import { NOISE_PRESETS } from '../../sim/rig/default-rig.ts';
import { brakesSchema } from './brakes-schema.ts';
import { line, mapping, pinNumber, present, pushIssue, quantity, strict, whole, word } from './field.ts';
import { eachFingerSchema, fingerSchema } from './finger-schema.ts';
import { settingsSchema } from './settings-schema.ts';

const counts = (max: number) => quantity('counts', 0, max);

const spikes = z
  .array(counts(4095))
  .length(2)
  .transform((pair, ctx): [number, number] => {
    const [smallest, largest] = [pair[0]!, pair[1]!];
    if (smallest <= largest) return [smallest, largest];
    return pushIssue(ctx, pair, {
      expected: 'the smaller size first',
      next: `write [${largest}, ${smallest}]`,
    });
  });

/** `noise: quiet` is short for `noise: {preset: quiet}`. */
const noiseSchema = z.preprocess(
  (value) => (typeof value === 'string' ? { preset: value } : value === null ? {} : value),
  strict({
    preset: word(NOISE_PRESETS).optional(),
    recording: line('a file name', 1000).optional(),
    sd: counts(1000).optional(),
    hum: counts(1000).optional(),
    humFrequency: quantity('frequency', 0, 1000, true).optional(),
    spikeShare: quantity('share', 0, 0.1).optional(),
    spikes: spikes.optional(),
    oddShare: quantity('share', 0, 1).optional(),
    wander: counts(500).optional(),
    residue: quantity('share', 0, 0.2).optional(),
  }),
);

/**
 * The rig file. Everything but `fingers` may be left out; units, ranges and spelling are checked here, what
 * hangs together (pins and board, travel and spool) is checked afterwards.
 */
export const rigSchema = strict({
  name: line('a name', 80).optional(),
  hand: mapping({
    side: word(['left', 'right']).optional(),
    size: quantity('plain', 0.8, 1.2).optional(),
  }).optional(),
  board: word(BOARD_IDS).optional(),
  supply: mapping({
    voltage: quantity('voltage', 1, 5.5).optional(),
    tolerance: quantity('share', 0, 0.5).optional(),
    sag: quantity('share', 0, 0.3).optional(),
  }).optional(),
  frameRate: quantity('frequency', 10, 1000).optional(),
  noise: noiseSchema.optional(),
  gesture: mapping({
    on: quantity('share', 0, 1).optional(),
    off: quantity('share', 0, 1).optional(),
    dwell: quantity('time', 0, 5000).optional(),
  }).optional(),
  calibrationPoints: whole(2, 9).optional(),
  wishes: mapping({
    jitter: quantity('percent', 0, 100, true).optional(),
    lag: quantity('time', 0, 1000, true).optional(),
    falsePerHour: quantity('plain', 0, 1e6).optional(),
    frameShare: quantity('share', 0, 1, true).optional(),
    step: quantity('percent', 0, 100, true).optional(),
    endMiss: quantity('percent', 0, 100, true).optional(),
  }).optional(),
  eachFinger: eachFingerSchema.optional(),
  fingers: mapping({
    thumb: fingerSchema.optional(),
    index: fingerSchema.optional(),
    middle: fingerSchema.optional(),
    ring: fingerSchema.optional(),
    little: fingerSchema.optional(),
  }).optional(),
  joystick: mapping({ x: pinNumber(), y: pinNumber() }).optional(),
  buttons: z.array(pinNumber('the GPIO number of a pin, such as 18')).min(1).max(4).optional(),
  frameLink: mapping({ tx: pinNumber(), baud: whole(9600, 2_000_000, 'a rate in bits a second') }).optional(),
  watchdog: quantity('time', 1000, 60_000).optional(),
  dummyRead: present().optional(),
  cell: mapping({
    capacity: quantity('charge', 10, 50_000),
    maxCurrent: quantity('current', 0.01, 100).optional(),
  }).optional(),
  brakes: brakesSchema.optional(),
  rail: mapping({ pin: pinNumber(), divider: quantity('share', 0, 1, true) }).optional(),
  multiplexer: mapping({
    select: z.array(pinNumber('the GPIO number of a pin, such as 21')).length(3),
    signal: pinNumber(),
  }).optional(),
  budget: quantity('money', 0, 1e6, true).optional(),
  settings: settingsSchema.optional(),
});

export type RigBlock = z.output<typeof rigSchema>;
