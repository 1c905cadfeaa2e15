import type { BoardId } from '../../../firmware/boards/board.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { faradWords, ohmWords } from '../value-words.ts';
import { cellParts, joystickResistors, railParts, type TwoResistors } from '../wiring/divider-parts.ts';
import { MULTIPLEXER } from './multiplexer-pins.ts';
import type { PinPlan } from './pin-plan.ts';
import type { WireKey } from './wanted-pins.ts';

/** One wire, or one part between two points. */
export interface WiringRow {
  /** Part and terminal. */
  from: string;
  /** Where it goes: a board pin as printed beside it, a terminal, 3V3 or GND. */
  to: string;
  /** GPIO number, where it goes to one. */
  gpio?: number;
  /** Resistor or capacitor in between; `wire` if nothing is. */
  through: string;
  /** What to mind; may be empty. */
  note: string;
}

const WIRE = 'wire';

/** A pin as boards print it: most the number, the original chip's 36 and 39 as VP and VN on most boards. */
export function pinName(board: BoardId, gpio: number): string {
  const other = board === 'esp32' ? { 36: 'VP', 39: 'VN' }[gpio] : undefined;
  return other === undefined ? `IO${gpio}` : `IO${gpio} (${other})`;
}

/** Every wire of a plan, with the values that the rig's wiring has. */
export function wiringTable(rig: Rig, plan: PinPlan): WiringRow[] {
  const pinOf = (key: WireKey) => plan.pins.find((wire) => wire.key === key)?.pin;
  const toPin = (key: WireKey) => {
    const gpio = pinOf(key)!;
    return { to: pinName(plan.board, gpio), gpio };
  };
  const rows: WiringRow[] = [];
  const add = (from: string, to: { to: string; gpio?: number }, through: string, note = '') => {
    rows.push({ from, ...to, through, note });
  };
  if (plan.hasMultiplexer) multiplexerRows(plan, add, toPin);
  for (const finger of rig.fingers) {
    const channel = plan.channels[finger.name];
    const to =
      channel === undefined
        ? toPin(finger.name)
        : { to: `multiplexer Y${channel} (pin ${MULTIPLEXER.inputs[channel]})` };
    fingerRows(finger, to, channel !== undefined, add);
  }
  if (pinOf('joystick x') !== undefined) joystickRows(joystickResistors(rig), add, toPin);
  if (pinOf('rail') !== undefined) {
    const from = 'rail divider';
    dividerRows(from, '3V3 of the potentiometers', railParts(rig) ?? cellParts(rig), toPin('rail'), add);
  }
  if (pinOf('battery') !== undefined) {
    dividerRows('cell divider', 'cell, plus', cellParts(rig), toPin('battery'), add);
  }
  if (pinOf('serial output') !== undefined) {
    add('other board, RX', toPin('serial output'), WIRE, 'join the grounds of both; leave GPIO5 open');
  }
  for (const { key, role } of plan.pins) {
    if (role === 'drive') {
      add(`${key}, signal`, toPin(key), WIRE, 'servo on a supply of its own; join the grounds');
    }
    if (role === 'button') {
      add(`${key}, one side`, toPin(key), WIRE, 'the pull-up is in the board');
      add(`${key}, other side`, { to: 'GND' }, WIRE);
    }
  }
  return rows;
}

type Add = (from: string, to: { to: string; gpio?: number }, through: string, note?: string) => void;

function multiplexerRows(
  plan: PinPlan,
  add: Add,
  toPin: (key: WireKey) => { to: string; gpio: number },
): void {
  const terminal = (name: string, number: number) => `multiplexer ${name} (pin ${number})`;
  const supply = terminal('VCC', MULTIPLEXER.positive);
  add(supply, { to: '3V3' }, WIRE);
  add(supply, { to: 'GND' }, faradWords(AXIS_CAPACITOR_F), 'right at the chip');
  for (const [name, number] of [
    ['GND', MULTIPLEXER.ground],
    ['VEE', MULTIPLEXER.negative],
    ['E', MULTIPLEXER.enable],
  ] as const) {
    add(terminal(name, number), { to: 'GND' }, WIRE, name === 'E' ? 'always on' : '');
  }
  MULTIPLEXER.selects.forEach((number, line) => {
    add(terminal(`S${line}`, number), toPin(`select ${line}` as WireKey), WIRE);
  });
  add(
    terminal('COM', MULTIPLEXER.common),
    toPin('signal'),
    WIRE,
    'no capacitor here: it would mix the strings',
  );
  const open = openInputs(plan);
  if (open.length > 0) {
    add(
      `multiplexer ${open.map((n) => `Y${n}`).join(', ')}`,
      { to: 'GND' },
      WIRE,
      'inputs that nothing uses',
    );
  }
}

/** Inputs of the multiplexer that nothing hangs on. */
export function openInputs(plan: PinPlan): number[] {
  const used = Object.values(plan.channels);
  return MULTIPLEXER.inputs.map((_, n) => n).filter((n) => !used.includes(n));
}

/** A value as words, a wire if there is none. */
function resistor(ohm: number): string {
  return ohm === 0 ? WIRE : ohmWords(ohm);
}

function fingerRows(
  finger: Finger,
  to: { to: string; gpio?: number },
  isOnMultiplexer: boolean,
  add: Add,
): void {
  const { name, wiring } = finger;
  const pot = `${name} potentiometer`;
  const near = isOnMultiplexer ? 'near the multiplexer' : 'near the pin';
  add(`${pot}, top end`, { to: '3V3' }, resistor(wiring.topOhm), 'the end it turns to as the finger bends');
  add(`${pot}, bottom end`, { to: 'GND' }, resistor(wiring.bottomOhm));
  add(`${pot}, wiper`, to, WIRE);
  if (wiring.capacitorF > 0) add(`${name} wiper`, { to: 'GND' }, faradWords(wiring.capacitorF), near);
  if (wiring.pullDownOhm > 0) {
    add(`${name} wiper`, { to: 'GND' }, ohmWords(wiring.pullDownOhm), `${near}; shows a broken wire`);
  }
}

function joystickRows(
  pair: TwoResistors | undefined,
  add: Add,
  toPin: (key: WireKey) => { to: string; gpio: number },
): void {
  add('joystick, plus', { to: '3V3' }, resistor(pair?.topOhm ?? 0), 'for two axes of 10 kΩ side by side');
  add('joystick, minus', { to: 'GND' }, resistor(pair?.bottomOhm ?? 0));
  for (const axis of ['x', 'y'] as const) {
    add(`joystick, ${axis}`, toPin(`joystick ${axis}`), WIRE);
    add(`joystick, ${axis}`, { to: 'GND' }, faradWords(AXIS_CAPACITOR_F), 'near the pin');
  }
}

function dividerRows(
  from: string,
  source: string,
  { topOhm, bottomOhm }: TwoResistors,
  to: { to: string; gpio: number },
  add: Add,
): void {
  add(`${from}, middle`, to, WIRE);
  add(`${from}, middle`, { to: source }, resistor(topOhm));
  if (bottomOhm > 0) add(`${from}, middle`, { to: 'GND' }, ohmWords(bottomOhm));
  add(`${from}, middle`, { to: 'GND' }, faradWords(AXIS_CAPACITOR_F), 'near the pin');
}

/** At pins beside the strings', F: Espressif's ADC guide advises 100 nF. */
export const AXIS_CAPACITOR_F = 1e-7;
