import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { MULTIPLEXER } from '../../../sim/sizing/pins/multiplexer-pins.ts';
import type { PinPlan } from '../../../sim/sizing/pins/pin-plan.ts';
import type { WireKey } from '../../../sim/sizing/pins/wanted-pins.ts';
import { AXIS_CAPACITOR_F, openInputs, pinName } from '../../../sim/sizing/pins/wiring-table.ts';
import { faradWords, ohmWords } from '../../../sim/sizing/value-words.ts';
import {
  cellParts,
  joystickResistors,
  railParts,
  type TwoResistors,
} from '../../../sim/sizing/wiring/divider-parts.ts';
import { drawing, element, label } from '../svg.ts';
import { Pen } from './schematic.ts';
import {
  buttonCircuit,
  type Circuit,
  dividerCircuit,
  groundCircuit,
  joystickCircuit,
  namedCircuit,
  type PinLabel,
  servoCircuit,
  stringCircuit,
  supplyCircuit,
} from './wiring-circuits.ts';

/** Below this the block stands at the left and all circuits right of it. */
const TWO_SIDES_FROM = 640;
const BLOCK_WIDTH = { two: 120, one: 58 };
const MARGIN = 6;
/** Room for a block's title, and below a block. */
const TITLE = 24;
const BELOW = 30;

/** A board or chip with its circuits. */
interface Block {
  title: string;
  circuits: Circuit[];
}

function blocksOf(rig: Rig, plan: PinPlan): Block[] {
  const pinOf = (key: WireKey) => plan.pins.find((wire) => wire.key === key)?.pin;
  const at = (key: WireKey): PinLabel => pinLabel(plan, pinOf(key)!);
  const board: Circuit[] = [supplyCircuit({ name: '3V3' }), groundCircuit({ name: 'GND' })];
  const chip: Circuit[] = [];
  if (plan.hasMultiplexer) {
    board.push(namedCircuit(at('signal'), 'multiplexer COM'));
    chip.push(namedCircuit(terminal('COM', MULTIPLEXER.common), `to ${boardName(plan, pinOf('signal')!)}`));
    MULTIPLEXER.selects.forEach((number, n) => {
      const key = `select ${n}` as WireKey;
      board.push(namedCircuit(at(key), `multiplexer S${n}`));
      chip.push(namedCircuit(terminal(`S${n}`, number), `to ${boardName(plan, pinOf(key)!)}`));
    });
    chip.push(supplyCircuit(terminal('VCC', MULTIPLEXER.positive), faradWords(AXIS_CAPACITOR_F)));
    for (const [name, number] of [
      ['GND', MULTIPLEXER.ground],
      ['VEE', MULTIPLEXER.negative],
      ['E', MULTIPLEXER.enable],
    ] as const) {
      chip.push(groundCircuit(terminal(name, number)));
    }
  }
  for (const finger of rig.fingers) {
    const { wiring, potentiometer } = finger;
    const channel = plan.channels[finger.name];
    const values = {
      finger: finger.name,
      pot: ohmWords(potentiometer.resistanceOhm),
      top: ohmsOrWire(wiring.topOhm),
      bottom: ohmsOrWire(wiring.bottomOhm),
      pullDown: ohmsOrWire(wiring.pullDownOhm),
      capacitor: wiring.capacitorF > 0 ? faradWords(wiring.capacitorF) : undefined,
    };
    if (channel === undefined) board.push(stringCircuit(at(finger.name), values));
    else chip.push(stringCircuit(terminal(`Y${channel}`, MULTIPLEXER.inputs[channel]!), values));
  }
  if (plan.hasMultiplexer) {
    for (const input of openInputs(plan)) {
      chip.push(groundCircuit(terminal(`Y${input}`, MULTIPLEXER.inputs[input]!)));
    }
  }
  const capacitor = faradWords(AXIS_CAPACITOR_F);
  if (pinOf('joystick x') !== undefined) {
    const pair = twoWords(joystickResistors(rig));
    board.push(joystickCircuit(at('joystick x'), at('joystick y'), { ...pair, capacitor }));
  }
  if (pinOf('rail') !== undefined) {
    board.push(dividerCircuit(at('rail'), 'rail', { ...twoWords(railParts(rig)), capacitor }, false));
  }
  if (pinOf('battery') !== undefined) {
    board.push(dividerCircuit(at('battery'), 'cell', { ...twoWords(cellParts(rig)), capacitor }, true));
  }
  if (pinOf('serial output') !== undefined) {
    board.push(namedCircuit(at('serial output'), 'RX of the other board'));
  }
  for (const { key, role } of plan.pins) {
    if (role === 'drive') board.push(servoCircuit(at(key), key));
    if (role === 'button') board.push(buttonCircuit(at(key), key));
  }
  const blocks = [{ title: boardFacts(plan.board).label, circuits: board }];
  if (plan.hasMultiplexer) blocks.push({ title: `multiplexer ${MULTIPLEXER.name}`, circuits: chip });
  return blocks;
}

function ohmsOrWire(ohm: number): string | undefined {
  return ohm > 0 ? ohmWords(ohm) : undefined;
}

function twoWords(pair: TwoResistors | undefined): { top: string | undefined; bottom: string | undefined } {
  return { top: ohmsOrWire(pair?.topOhm ?? 0), bottom: ohmsOrWire(pair?.bottomOhm ?? 0) };
}

function pinLabel(plan: PinPlan, gpio: number): PinLabel {
  const [name, more] = pinName(plan.board, gpio).split(' ');
  return { name: name!, ...(more !== undefined && { more: more.replace(/[()]/g, '') }) };
}

function boardName(plan: PinPlan, gpio: number): string {
  return `${pinName(plan.board, gpio)} of the board`;
}

function terminal(name: string, number: number): PinLabel {
  return { name, more: `pin ${number}` };
}

/** A circuit with its place: from the block's top down, on one side of it. */
interface Placed {
  circuit: Circuit;
  side: 1 | -1;
  top: number;
}

/** Circuits one under the other; with two sides the first ones on the left, split where both are most alike. */
function place(circuits: readonly Circuit[], hasTwoSides: boolean): { placed: Placed[]; height: number } {
  const sum = (some: readonly Circuit[]) => some.reduce((height, circuit) => height + circuit.height, 0);
  const heightAt = (split: number) => Math.max(sum(circuits.slice(0, split)), sum(circuits.slice(split)));
  let split = 0;
  for (let n = 1; hasTwoSides && n <= circuits.length; n++) if (heightAt(n) < heightAt(split)) split = n;
  const bottoms = { left: 0, right: 0 };
  const placed = circuits.map((circuit, index): Placed => {
    const side = index < split ? 'left' : 'right';
    const top = bottoms[side];
    bottoms[side] += circuit.height;
    return { circuit, side: side === 'left' ? -1 : 1, top };
  });
  return { placed, height: heightAt(split) };
}

/** Height that the diagram takes at a width, user units. */
export function diagramHeight(rig: Rig, plan: PinPlan, width: number): number {
  const hasTwoSides = width >= TWO_SIDES_FROM;
  return blocksOf(rig, plan).reduce(
    (sum, { circuits }) => sum + TITLE + place(circuits, hasTwoSides).height + BELOW,
    0,
  );
}

/**
 * The circuit of a plan with the rig's values: the board as a block with its used pins, and at each pin what hangs
 * there; a multiplexer as a second block below, joined by names.
 * @param width user units; below 640 everything stands right of the blocks
 */
export function wiringDiagram(rig: Rig, plan: PinPlan, width: number, id: string): string {
  const hasTwoSides = width >= TWO_SIDES_FROM;
  const blockWidth = hasTwoSides ? BLOCK_WIDTH.two : BLOCK_WIDTH.one;
  const left = hasTwoSides ? (width - blockWidth) / 2 : MARGIN;
  const body: string[] = [];
  let y = 0;
  for (const { title, circuits } of blocksOf(rig, plan)) {
    const { placed, height } = place(circuits, hasTwoSides);
    body.push(
      hasTwoSides
        ? label(left + blockWidth / 2, y + 14, title, { anchor: 'middle', class: 'strong' })
        : label(left, y + 14, title, { class: 'strong' }),
      element('rect', {
        x: left,
        y: y + TITLE,
        width: blockWidth,
        height: height + BELOW / 3,
        rx: 4,
        class: 'block',
      }),
    );
    for (const { circuit, side, top } of placed) {
      const pen = new Pen(side === 1 ? left + blockWidth : left, side);
      circuit.draw(pen, y + TITLE + top);
      body.push(...pen.svg);
    }
    y += TITLE + height + BELOW;
  }
  return drawing(
    {
      id,
      title: 'Wiring diagram',
      description: descriptionOf(rig, plan),
      size: { width, height: diagramHeight(rig, plan, width) },
      class: 'plot wiring',
    },
    body,
  );
}

function descriptionOf(rig: Rig, plan: PinPlan): string {
  const places = rig.fingers.map(({ name }) => {
    const channel = plan.channels[name];
    if (channel !== undefined) return `${name} on input Y${channel} of the multiplexer`;
    const wire = plan.pins.find(({ key }) => key === name);
    return wire ? `${name} on ${pinName(plan.board, wire.pin)}` : name;
  });
  const others = plan.pins
    .filter(
      ({ key, role }) =>
        role !== 'select' && key !== 'signal' && !rig.fingers.some(({ name }) => name === key),
    )
    .map(({ key, pin }) => `${key} on ${pinName(plan.board, pin)}`);
  return `Circuit of the ${boardFacts(plan.board).label}: ${[...places, ...others].join(', ')}. The table of wires says the same.`;
}
