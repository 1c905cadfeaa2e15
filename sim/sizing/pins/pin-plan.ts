import type { BoardId } from '../../../firmware/boards/board.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { BoardFacts } from '../../../firmware/boards/facts.ts';
import type { FingerName } from '../../rig/rig.ts';
import { isGood } from './pin-rules.ts';
import { type PinRole, SECOND_PORT_INPUT } from './pin-uses.ts';
import {
  type GivenPins,
  NOTHING_GIVEN,
  type WantedPins,
  type WantedWire,
  type WireKey,
  wiresOf,
} from './wanted-pins.ts';

/** One wire of a plan. */
export interface PlannedPin {
  key: WireKey;
  role: PinRole;
  /** GPIO number. */
  pin: number;
  /** Pin that the rig gives and that the wire leaves; left out when it stays or is new. */
  movedFrom?: number;
}

/** Where every wire goes. */
export interface PinPlan {
  board: BoardId;
  pins: PlannedPin[];
  /** Input of the multiplexer for each finger that hangs on it; empty without one. */
  channels: { [name in FingerName]?: number };
  hasMultiplexer: boolean;
  /** Why there is a multiplexer that the rig does not have; left out otherwise. */
  multiplexerReason?: string;
}

/** A plan, or why there is none. */
export type PinProposal =
  | { plan: PinPlan; problem?: undefined }
  | { plan?: undefined; problem: { seen: string; cure: string } };

/** Inputs of the multiplexer. */
export const CHANNELS = 8;

/** Pins that a fresh wire may go to, best ones first. */
export function goodPins(facts: BoardFacts, role: PinRole): number[] {
  const pins = role === 'analog' ? facts.adc1Pins : facts.digitalPins;
  return pins.filter((pin) => isGood(facts, pin, role) && !facts.hiddenPins.includes(pin));
}

/** How much of what the rig gives is kept; the first that works is taken. */
interface Attempt {
  hasMultiplexer: boolean;
  /** Fingers on a pin of their own. */
  direct: FingerName[];
  /** Whether a given pin may stay. */
  keeps: (pin: number, role: PinRole) => boolean;
}

/** Gives every wire its pin; undefined where none is left for one. */
function assign(
  facts: BoardFacts,
  wires: readonly WantedWire[],
  given: GivenPins,
  attempt: Attempt,
  reserved: readonly number[],
): PlannedPin[] | undefined {
  const taken = new Set(reserved);
  const pinOf = new Map<WireKey, number>();
  const isCalm = (pin: number) => !facts.dippingPins.includes(pin);
  const put = (key: WireKey, pin: number) => {
    taken.add(pin);
    pinOf.set(key, pin);
  };
  const givenFor = ({ key, role }: WantedWire): number | undefined => {
    const pin = given.pins[key];
    if (pin === undefined || taken.has(pin)) return undefined;
    return isGood(facts, pin, role) && attempt.keeps(pin, role) ? pin : undefined;
  };
  for (const wire of wires) {
    const pin = givenFor(wire);
    if (pin !== undefined && isCalm(pin)) put(wire.key, pin);
  }
  for (const wire of wires) {
    if (pinOf.has(wire.key)) continue;
    const free = goodPins(facts, wire.role).filter((pin) => !taken.has(pin));
    // A pin that dips is left only for a better one.
    const pin = free.find(isCalm) ?? givenFor(wire) ?? free[0];
    if (pin === undefined) return undefined;
    put(wire.key, pin);
  }
  return wires.map(({ key, role }) => {
    const pin = pinOf.get(key)!;
    const before = given.pins[key];
    return { key, role, pin, ...(before !== undefined && before !== pin && { movedFrom: before }) };
  });
}

/** Inputs for the fingers on the multiplexer: their own where the rig gives one, else the lowest free. */
function assignChannels(names: readonly FingerName[], given: GivenPins): PinPlan['channels'] {
  const channels: PinPlan['channels'] = {};
  const taken = new Set<number>();
  for (const name of names) {
    const channel = given.channels[name];
    if (channel === undefined || taken.has(channel)) continue;
    channels[name] = channel;
    taken.add(channel);
  }
  for (const name of names) {
    if (channels[name] !== undefined) continue;
    let channel = 0;
    while (taken.has(channel)) channel++;
    channels[name] = channel;
    taken.add(channel);
  }
  return channels;
}

function attemptsFor(facts: BoardFacts, wanted: WantedPins, given: GivenPins): Attempt[] {
  const all = wanted.fingers;
  const onPins = all.filter((name) => given.channels[name] === undefined);
  const keepings: Attempt['keeps'][] = [
    () => true,
    // a button on an ADC1 pin may have to make room for a string
    (pin, role) => role === 'analog' || !facts.adc1Pins.includes(pin),
    () => false,
  ];
  const kinds =
    given.pins.signal === undefined
      ? [
          { hasMultiplexer: false, direct: all },
          { hasMultiplexer: true, direct: [] },
        ]
      : [
          { hasMultiplexer: true, direct: onPins },
          { hasMultiplexer: true, direct: [] },
        ];
  return kinds.flatMap((kind) => keepings.map((keeps) => ({ ...kind, keeps })));
}

/**
 * A pin for every wire, none of which the board's rules say anything against. Pins that the rig gives stay where
 * they are if nothing is wrong with them; when the board has too few good ADC1 pins, the fingers go on an external
 * analog multiplexer of eight inputs (74HC4051 type): three select lines and one ADC1 pin.
 */
export function proposePins(
  board: BoardId,
  wanted: WantedPins,
  given: GivenPins = NOTHING_GIVEN,
): PinProposal {
  const facts = boardFacts(board);
  const reserved = wanted.serialOut ? [SECOND_PORT_INPUT] : [];
  for (const attempt of attemptsFor(facts, wanted, given)) {
    const wires = wiresOf(wanted, attempt.direct, attempt.hasMultiplexer);
    const pins = assign(facts, wires, given, attempt, reserved);
    if (!pins) continue;
    const onMultiplexer = wanted.fingers.filter((name) => !attempt.direct.includes(name));
    const plan: PinPlan = {
      board,
      pins,
      hasMultiplexer: attempt.hasMultiplexer,
      channels: assignChannels(attempt.hasMultiplexer ? onMultiplexer : [], given),
    };
    if (plan.hasMultiplexer && given.pins.signal === undefined) {
      plan.multiplexerReason = tooFewWords(facts, wiresOf(wanted, wanted.fingers, false), reserved);
    }
    return { plan };
  }
  return { problem: problemOf(facts, wiresOf(wanted, [], true), reserved) };
}

function countOf(wires: readonly WantedWire[], isAnalog: boolean): number {
  return wires.filter(({ role }) => (role === 'analog') === isAnalog).length;
}

function tooFewWords(facts: BoardFacts, wires: readonly WantedWire[], reserved: readonly number[]): string {
  const good = goodPins(facts, 'analog').filter((pin) => !reserved.includes(pin));
  const needed = countOf(wires, true);
  return needed > good.length
    ? `${needed} voltages are to be read, and the ${facts.label} has ${good.length} good ADC1 pins: ${good.join(', ')}`
    : `the wires need more pins than the ${facts.label} has good ones`;
}

/** Why not even the multiplexer helps. */
function problemOf(
  facts: BoardFacts,
  wires: readonly WantedWire[],
  reserved: readonly number[],
): { seen: string; cure: string } {
  const isFree = (pin: number) => !reserved.includes(pin);
  const analog = goodPins(facts, 'analog').filter(isFree);
  const all = new Set([...analog, ...goodPins(facts, 'button').filter(isFree)]);
  const neededAnalog = countOf(wires, true);
  const seen =
    neededAnalog > analog.length
      ? `even with a multiplexer ${neededAnalog} voltages need an ADC1 pin of their own, and the ${facts.label} has ${analog.length} good ones: ${analog.join(', ')}`
      : `${wires.length} wires need a pin with the multiplexer in place, and the ${facts.label} has ${all.size} good ones`;
  const other = facts.id === 'esp32' ? '' : ', or take the original ESP32 (board: esp32), which has more';
  return { seen, cure: `leave out what you need least (buttons, brakes, a divider)${other}` };
}
