/** Rigs to compare on: every kind of stage, finger count, and outside. Made from a seed. */
import type { BoardPlan, FingerPlan } from '../../firmware/main/board-plan.ts';
import type { Despike, Hysteresis, LowPass, Oversampling } from '../../firmware/chain/settings.ts';
import { commandText } from '../../protocol/command-packet.ts';
import { rnd } from '../../sim/seed/mix.ts';
import type { WorldSpec } from './world.ts';

export interface Case {
  name: string;
  plan: BoardPlan;
  world: WorldSpec;
}

const LOW_PASSES: LowPass[] = [
  { kind: 'none' },
  { kind: 'exponential', cutoffHz: 5 },
  { kind: 'oneEuro', minCutoffHz: 1.5, beta: 3, speedCutoffHz: 1 },
  { kind: 'adaptive', restCutoffHz: 1, riseHz: 60 },
];
const DESPIKES: Despike[] = [{ kind: 'none' }, { kind: 'clip', limitPct: 9 }, { kind: 'median' }];
const HYSTERESES: Hysteresis[] = [
  { kind: 'none' },
  { kind: 'still', widthPct: 0.7 },
  { kind: 'drag', widthPct: 0.9 },
  { kind: 'step', widthPct: 1.1 },
  { kind: 'drag', widthPct: 0.8, stillPct: 0.3 },
  { kind: 'step', widthPct: 0.8, stillPct: 0.6 },
];
const OVERSAMPLINGS: Oversampling[] = [8, 4, 1, 2, 16, 32];
const SLOTS = [[0, 1, 2, 3, 4], [1], [0, 4], [0, 1, 2], [1, 2, 3, 4]];
const PINS = [32, 33, 34, 35, 36];
const AXIS_PINS = [39, 37];
const BUTTON_PINS = [18, 19, 21, 22];
const SELECT_PINS = [25, 26, 27];
const RAIL_PIN = 38;
const STEPS = 1000;

/** All commands, some damaged, some repeated, spread over the first thousand steps. */
function packets(seed: number): [number, string][] {
  let tag = 7;
  const text = (code: number, subject: number, index: number, value: number) =>
    commandText({ tag: tag++, code, subject, index, value });
  const all: string[] = [
    text(1, 0, 0, 0),
    text(1, 1, 0, 0),
    text(9, 1, 0, 0),
    text(3, 1, 7, 9000.25),
    text(4, 1, 7, 0),
    text(3, 1, 0, 0.3),
    text(3, 2, 1, 0.02),
    text(3, 4, 3, 1.1),
    text(3, 0, 4, 0.1),
    text(3, 1, 2, 0.15),
    text(3, 2, 5, 0.07),
    text(3, 3, 6, 0.01),
    text(3, 1, 8, -100.1),
    text(6, 255, 0, 0),
    text(7, 255, 0, 0),
    text(8, 255, 0, 0),
    text(9, 0, 0, 0),
    text(8, 255, 0, 0),
    text(10, 1, 0, 0),
    text(8, 255, 0, 1),
    text(5, 1, 0, 0),
    text(5, 255, 0, 0),
    text(2, 3, 0, 0),
    text(3, 1, 9, 1),
    text(99, 0, 0, 0),
    text(12, 255, 0, 0),
    text(13, 255, 0, 0),
    text(10, 255, 0, 0),
    text(11, 255, 0, 0),
    text(14, 255, 0, 0),
    text(2, 2, 0, 0),
    text(5, 7, 0, 0),
  ];
  const damaged = `${all[3]!.slice(0, 12)}0${all[3]!.slice(13)}`;
  const list = [...all.slice(0, 5), all[4]!, damaged, 'ab', ...all.slice(5)];
  // the capture must last: its two commands lie far apart
  const wait = (t: string) => (t.slice(4, 6) === '07' ? 330 : 6);
  let step = 20;
  return list.map((t, i): [number, string] => {
    step += wait(t) + Math.floor(6 * rnd(i, seed, 3));
    return [step, t];
  });
}

/** @param count how many cases */
export function cases(count: number): Case[] {
  return Array.from({ length: count }, (_, i) => oneCase(i));
}

function oneCase(i: number): Case {
  const pick = <T>(list: readonly T[], shift: number): T => list[(i + shift) % list.length]!;
  const lowPass = LOW_PASSES[(3 + i) % 4]!;
  const despike = DESPIKES[Math.floor(1 + i / 2) % 3]!;
  const hysteresis = HYSTERESES[(1 + i) % 6]!;
  const oversampling = pick(OVERSAMPLINGS, Math.floor(i / 6));
  const slots = pick(SLOTS, 0);
  const isMultiplexed = i % 5 === 4;
  const hasRail = i % 4 === 1;
  const axisPins = i % 3 === 1 ? AXIS_PINS : [];
  const buttonPins = BUTTON_PINS.slice(0, (i * 3) % 5);
  const fingers = slots.map(
    (slot, n): FingerPlan => ({
      slot,
      pin: isMultiplexed ? PINS[0]! : PINS[n]!,
      channel: isMultiplexed ? n : -1,
      ends: n % 2 === 1 && i % 2 === 1 ? { open: 0.74, closed: 0.13 + 0.01 * n } : { open: 0.12 + 0.003 * n, closed: 0.73 - 0.011 * n },
      openBelow: 0.03,
    }),
  );
  const frameRateHz = [100, 50, 125, 200][i % 4]!;
  const name = `${i}: ${fingers.length} fingers x ${oversampling}, ${despike.kind}, ${lowPass.kind}, ${hysteresis.kind}${'stillPct' in hysteresis ? '+still' : ''}${isMultiplexed ? ', multiplexer' : ''}${hasRail ? ', rail' : ''}${axisPins.length ? ', joystick' : ''}, ${buttonPins.length} buttons, ${i % 2 ? 'right' : 'left'}`;
  return {
    name,
    plan: {
      settings: { oversampling, despike, lowPass, hysteresis },
      frameRateHz,
      facts: { programId: (17 * i) & 255, settingsId: 0x9e3779b9 - i, rightHand: i % 2 === 1 },
      fingers,
      dummyRead: i % 5 === 2 || isMultiplexed,
      rail: hasRail ? { pin: RAIL_PIN, nominal: 0.5, supplyMv: 3300 } : undefined,
      axisPins,
      buttonPins,
      selectPins: isMultiplexed ? SELECT_PINS : [],
      watched: i % 7 !== 6,
      watchdogS: 0,
      attenuationMv: 3600,
      frameUart: 'console',
    },
    world: {
      seed: 12345 + 7919 * i,
      periodUs: Math.round(1e6 / frameRateHz),
      fingerPins: isMultiplexed ? [] : fingers.map((f) => f.pin),
      signalPin: isMultiplexed ? PINS[0]! : -1,
      selectPins: isMultiplexed ? SELECT_PINS : [],
      railPin: hasRail ? RAIL_PIN : -1,
      axisPins,
      buttonPins,
      packets: packets(i),
    },
  };
}

export const GOLDEN_STEPS = STEPS;
