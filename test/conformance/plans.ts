/** Rigs to compare on. Made from a seed. */
import type { Despike, Hysteresis, LowPass, Settings } from '../../firmware/chain/settings.ts';
import type { BoardPlan, FingerPlan } from '../../firmware/main/board-plan.ts';
import { channelAt } from '../../firmware/main/multiplexer.ts';
import { rnd } from '../../sim/seed/mix.ts';
import { type Choice, choices } from './choices.ts';
import { packetsOf } from './packets.ts';
import { storedFiles } from './stored.ts';
import type { WorldSpec } from './world.ts';

export interface Case {
  name: string;
  choice: Choice;
  plan: BoardPlan;
  world: WorldSpec;
}

const PINS = [32, 33, 34, 35, 36];
const AXIS_PINS = [39, 37];
const BUTTON_PINS = [18, 19, 21, 22];
const SELECT_PINS = [25, 26, 27];
const RAIL_PIN = 38;
const SEED = 21;

/** @param steps for which packets come */
export function cases(count: number, steps: number): Case[] {
  return choices(count).map((choice, i) => oneCase(choice, i, steps));
}

function oneCase(choice: Choice, i: number, steps: number): Case {
  // decimals of two places, which the interpreter often misreads
  const decimal = (n: number, least: number, span: number) =>
    least + Math.round((span * (rnd(n, SEED, i) % 1000)) / 10) / 100;
  const isMultiplexed = choice.multiplexer;
  const fingers = fingersOf(choice, i);
  const axisPins = choice.joystick ? AXIS_PINS : [];
  const buttonPins = BUTTON_PINS.slice(0, choice.buttons);
  const facts = {
    programId: (17 * i) & 255,
    settingsId: (0x9e3779b9 * (i + 1)) >>> 0,
    rightHand: choice.rightHand,
  };
  const settings = settingsOf(choice, decimal);
  return {
    name: `${i}: ${nameOf(choice)}`,
    choice,
    plan: {
      settings,
      frameRateHz: choice.frameRateHz,
      facts,
      fingers,
      dummyRead: choice.dummyRead,
      rail: choice.rail ? { pin: RAIL_PIN, nominal: 0.5, supplyMv: 3300 } : undefined,
      axisPins,
      buttonPins,
      selectPins: isMultiplexed ? SELECT_PINS : [],
      watched: choice.watched,
      watchdogS: choice.isPlainBoard ? 0 : 9,
      attenuationMv: choice.isPlainBoard ? 3600 : 2000,
      frameUart: choice.isPlainBoard ? 'console' : { uart: 2, txPin: 17, baud: 921600 },
    },
    world: {
      seed: 12345 + 7919 * i,
      periodUs: Math.round(1e6 / choice.frameRateHz),
      fingerPins: isMultiplexed ? [] : fingers.map((f) => f.pin),
      signalPin: isMultiplexed ? PINS[0]! : -1,
      selectPins: isMultiplexed ? SELECT_PINS : [],
      railPin: choice.rail ? RAIL_PIN : -1,
      axisPins,
      buttonPins,
      packets: packetsOf(i, choice.slots, steps),
      files: storedFiles(choice.stored, facts, choice.slots),
      storeFault: choice.storeFault,
    },
  };
}

/** Behind a multiplexer the fingers are wired crosswise and read in the order of the channels. */
function fingersOf(choice: Choice, i: number): FingerPlan[] {
  const fingers = choice.slots.map((slot, n): FingerPlan & { order: number } => {
    const isDown = choice.turn === 'down' || (choice.turn === 'both' && n % 2 === 1);
    const order = (3 * n + i) % 8;
    return {
      slot,
      pin: choice.multiplexer ? PINS[0]! : PINS[(n + i) % 5]!,
      channel: choice.multiplexer ? channelAt(order) : -1,
      ends: isDown
        ? { open: 0.71, closed: 0.13 + 0.01 * n }
        : { open: 0.12 + 0.003 * n, closed: 0.7 - 0.011 * n },
      // one in four cannot be told
      openBelow: (n + i) % 4 === 3 ? 0 : 0.03,
      order,
    };
  });
  if (choice.multiplexer) fingers.sort((a, b) => a.order - b.order);
  return fingers.map(({ order: _, ...finger }) => finger);
}

function settingsOf(choice: Choice, decimal: (n: number, least: number, span: number) => number): Settings {
  const despikes: { [K in Choice['despike']]: Despike } = {
    none: { kind: 'none' },
    clip: { kind: 'clip', limitPct: decimal(0, 6, 30) },
    'narrow clip': { kind: 'clip', limitPct: 0.21 },
    median: { kind: 'median' },
  };
  const lowPasses: { [K in Choice['lowPass']]: LowPass } = {
    none: { kind: 'none' },
    exponential: { kind: 'exponential', cutoffHz: decimal(1, 0.7, 9) },
    oneEuro: {
      kind: 'oneEuro',
      minCutoffHz: decimal(2, 0.5, 3),
      beta: decimal(3, 1, 7),
      speedCutoffHz: decimal(4, 0.6, 1),
    },
    adaptive: { kind: 'adaptive', restCutoffHz: decimal(5, 0.4, 2), riseHz: decimal(6, 10, 90) },
  };
  const widthPct = decimal(7, 0.6, 0.9);
  const stillPct = decimal(8, 0.45, 0.15);
  const hystereses: { [K in Choice['hysteresis']]: Hysteresis } = {
    none: { kind: 'none' },
    still: { kind: 'still', widthPct },
    drag: { kind: 'drag', widthPct },
    step: { kind: 'step', widthPct },
    'drag+still': { kind: 'drag', widthPct, stillPct },
    'step+still': { kind: 'step', widthPct, stillPct },
  };
  return {
    oversampling: choice.oversampling,
    despike: despikes[choice.despike],
    lowPass: lowPasses[choice.lowPass],
    hysteresis: hystereses[choice.hysteresis],
  };
}

function nameOf(choice: Choice): string {
  const parts = [
    `fingers ${choice.slots.join('')} x ${choice.oversampling} at ${choice.frameRateHz} Hz`,
    choice.despike,
    choice.lowPass,
    choice.hysteresis,
    ...(['multiplexer', 'rail', 'joystick', 'dummyRead'] as const).filter((key) => choice[key]),
    `${choice.buttons} buttons`,
    choice.rightHand ? 'right' : 'left',
    `turn ${choice.turn}`,
    choice.watched ? 'watched' : 'not watched',
    choice.isPlainBoard ? 'console' : 'UART 2',
    `stored: ${choice.stored}`,
    `store fault: ${choice.storeFault}`,
  ];
  return parts.join(', ');
}
