import { FINGER_NAMES, type FingerName, type Rig } from '../../rig/rig.ts';
import type { PinRole } from './pin-uses.ts';

/** What a board shall serve. */
export interface WantedPins {
  /** In frame order. */
  fingers: FingerName[];
  joystick: boolean;
  /** The potentiometers' supply through a divider. */
  rail: boolean;
  /** The cell through a divider. The rig file has no key for it: the plan keeps a pin free. */
  battery: boolean;
  /** Frames on a second serial port. */
  serialOut: boolean;
  /** Brake servos, 0-5. */
  servos: number;
  /** Buttons, 0-4. */
  buttons: number;
}

/** Name of one wire of a plan; a finger's own name is that of its wiper. */
export type WireKey =
  | FingerName
  | 'signal'
  | 'select 0'
  | 'select 1'
  | 'select 2'
  | 'joystick x'
  | 'joystick y'
  | 'rail'
  | 'battery'
  | 'serial output'
  | `servo ${number}`
  | `button ${number}`;

export interface WantedWire {
  key: WireKey;
  role: PinRole;
}

/** Pins that a rig gives, by wire, and the multiplexer's inputs that its fingers hang on. */
export interface GivenPins {
  pins: { [key in WireKey]?: number };
  channels: { [name in FingerName]?: number };
}

/** What a rig uses now; a pin for the cell has no key of its own and is only wanted by asking. */
export function wantedOf(rig: Rig): WantedPins {
  return {
    fingers: FINGER_NAMES.filter((name) => rig.fingers.some((finger) => finger.name === name)),
    joystick: rig.joystick !== undefined,
    rail: rig.rail !== undefined,
    battery: false,
    serialOut: rig.frameLink !== undefined,
    servos: rig.brakes?.pins.length ?? 0,
    buttons: rig.buttons?.length ?? 0,
  };
}

/** Where a rig has its wires now. */
export function givenOf(rig: Rig): GivenPins {
  const given: GivenPins = { pins: {}, channels: {} };
  for (const { name, pin, channel } of rig.fingers) {
    if (channel === undefined) given.pins[name] = pin;
    else given.channels[name] = channel;
  }
  if (rig.multiplexer) {
    given.pins.signal = rig.multiplexer.signalPin;
    rig.multiplexer.selectPins.forEach((pin, line) => {
      given.pins[`select ${line}` as WireKey] = pin;
    });
  }
  if (rig.joystick) {
    given.pins['joystick x'] = rig.joystick.xPin;
    given.pins['joystick y'] = rig.joystick.yPin;
  }
  if (rig.rail) given.pins.rail = rig.rail.pin;
  if (rig.frameLink) given.pins['serial output'] = rig.frameLink.txPin;
  rig.brakes?.pins.forEach((pin, index) => {
    given.pins[`servo ${index + 1}`] = pin;
  });
  rig.buttons?.forEach((pin, index) => {
    given.pins[`button ${index + 1}`] = pin;
  });
  return given;
}

/** Wire of a plan that a pin of the rig belongs to; undefined for the second port's input, which is no wire. */
export function wireKeyOf(path: readonly (string | number)[]): WireKey | undefined {
  const [block, second, third] = path;
  if (block === 'fingers') return second as FingerName;
  if (block === 'multiplexer') return second === 'signal' ? 'signal' : (`select ${third}` as WireKey);
  if (block === 'joystick') return `joystick ${second}` as WireKey;
  if (block === 'rail') return 'rail';
  if (block === 'brakes') return `servo ${Number(third) + 1}`;
  if (block === 'buttons') return `button ${Number(second) + 1}`;
  return block === 'frameLink' && second === 'tx' ? 'serial output' : undefined;
}

/** No pin given: a plan from scratch. */
export const NOTHING_GIVEN: GivenPins = { pins: {}, channels: {} };

/**
 * All wires of a wanted set in the order in which they choose: analog ones first, since they have fewest pins.
 * @param direct fingers on a pin of their own; the others hang on the multiplexer, if there is one
 */
export function wiresOf(
  wanted: WantedPins,
  direct: readonly FingerName[],
  hasMultiplexer: boolean,
): WantedWire[] {
  const wires: WantedWire[] = [];
  const add = (role: PinRole, ...keys: WireKey[]) => {
    for (const key of keys) wires.push({ key, role });
  };
  if (hasMultiplexer) add('analog', 'signal');
  add('analog', ...direct);
  if (wanted.joystick) add('analog', 'joystick x', 'joystick y');
  if (wanted.rail) add('analog', 'rail');
  if (wanted.battery) add('analog', 'battery');
  // Before the others: fewest pins suit a servo.
  for (let n = 1; n <= wanted.servos; n++) add('drive', `servo ${n}`);
  if (hasMultiplexer) add('select', 'select 0', 'select 1', 'select 2');
  if (wanted.serialOut) add('transmit', 'serial output');
  for (let n = 1; n <= wanted.buttons; n++) add('button', `button ${n}`);
  return wires;
}
