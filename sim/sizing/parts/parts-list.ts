import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Finger, Potentiometer, Rig, Spring } from '../../rig/rig.ts';
import { faradWords, ohmWords, short, toleranceWords } from '../value-words.ts';
import { joystickResistors } from '../wiring/divider-parts.ts';
import { railResistors } from '../wiring/rail-resistors.ts';
import { filamentG, stringM, tubeM, WIRE_M } from './part-amounts.ts';
import type { Part, PartId } from './part-catalogue.ts';
import { PartDraft } from './part-draft.ts';

/** One spare potentiometer in so many: they wear first, and one in a handful is stiff. Assumed. */
const POTS_A_SPARE = 5;
/** At this tolerance or closer a resistor is sold as a precise one. Assumed. */
const PRECISE = 0.02;
/** Tolerance of the rail's two resistors: it shows in full in the measured supply. Assumed. */
const RAIL_TOLERANCE = 0.01;
/** Cycles from which a potentiometer is sold as a long-life one: carbon parts are rated 10 000-25 000. Assumed. */
const LONG_LIFE_CYCLES = 50_000;
/** Capacitor that carries the board's supply over the start of its radio, F. Assumed, 100 µF or more. */
const BUFFER_F = 1e-4;
/** Capacitor at the supply pins of the multiplexer, F: the usual advice of logic datasheets. Assumed. */
const DECOUPLING_F = 1e-7;
/** Of the two resistors ahead of a joystick: the usual ones. Assumed. */
const JOYSTICK_SERIES_TOLERANCE = 0.05;
/** Screws of one printed unit: two hold its lid, two the cap over the potentiometer. */
const SCREWS_A_LID = 2;
const SCREWS_A_CAP = 2;
/** Screws for the board. Assumed. */
const SCREWS_A_BOARD = 4;
/** Strap round the wrist, m. Assumed. */
const STRAP_M = 0.5;
/** Wires to one potentiometer, to a joystick with its two supply wires, to a button, to a serial adapter. */
const WIRES = { potentiometer: 3, joystick: 4, button: 2, serialAdapter: 2 };

/**
 * All that has to be bought for this rig, tools and consumables (solder, heat-shrink, glue) left out.
 * @param hands 1, or 2 for a pair of the same build: they share what charges their cells, and spares are counted
 *   over both
 */
export function partsList(rig: Rig, hands: 1 | 2): Part[] {
  const draft = new PartDraft();
  const add = (id: PartId, spec: string, perHand: number, purpose: string, from: string) =>
    draft.add(id, spec, perHand * hands, purpose, from);
  addBoard(rig, add);
  for (const finger of rig.fingers) addFinger(rig, finger, add);
  addSpares(rig, hands, draft);
  addInputs(rig, add);
  addBody(rig, hands, add);
  if (rig.cell) {
    const { capacityMAh } = rig.cell;
    add('cell', `${short(capacityMAh)} mAh, with protection circuit`, 1, 'feeds the board', 'cell');
    add('cellRegulator', 'from the cell to the board', 1, 'holds the voltage as the cell runs down', 'cell');
    // one charger serves both hands
    draft.add('cellCharger', 'made for this cell', 1, 'charges the cell off the hand', 'cell');
  }
  addBrakes(rig, add);
  return draft.parts();
}

type Add = (id: PartId, spec: string, perHand: number, purpose: string, from: string) => void;

function addBoard(rig: Rig, add: Add): void {
  const { label } = boardFacts(rig.board);
  add(`board-${rig.board}`, `${label}, on a carrier with USB`, 1, 'reads the strings', 'board');
  add('usbCable', 'with data wires, not for charging only', 1, 'to the computer', 'board');
  add('bufferCapacitor', `${faradWords(BUFFER_F)}, 10 V`, 1, 'beside the board’s supply pins', 'board');
  add('stripBoard', 'about 50 × 70 mm', 1, 'carries board, resistors and plugs', 'board');
}

/** What a potentiometer is sold as. */
function potId(pot: Potentiometer): PartId {
  if (pot.mechanicalTravelDeg > 360) return 'multiTurnPotentiometer';
  return pot.ratedCycles >= LONG_LIFE_CYCLES ? 'longLifePotentiometer' : 'potentiometer';
}

function potSpec(pot: Potentiometer): string {
  return `${ohmWords(pot.resistanceOhm)} ${toleranceWords(pot.tolerance)}, linear, ${short(pot.mechanicalTravelDeg)}°`;
}

function springSpec({ openTorqueMNm, perTurnMNm, strip }: Spring): string {
  const torques = `${short(openTorqueMNm)} mN·m open, ${short(perTurnMNm)} more a turn`;
  if (!strip) return torques;
  const { widthMm, thicknessMm, lengthMm } = strip;
  return `strip of ${short(widthMm)} × ${short(thicknessMm)} × ${short(lengthMm)} mm: ${torques}`;
}

function addFinger(rig: Rig, finger: Finger, add: Add): void {
  const { potentiometer: pot, spring, wiring } = finger;
  add(potId(pot), potSpec(pot), 1, 'for the fingers', 'fingers.potentiometer');
  add('spring', springSpec(spring), 1, 'winds the string in', 'fingers.spring');
  const resistor = (ohm: number, purpose: string, field: string) =>
    addResistor(add, ohm, wiring.seriesTolerance, purpose, `fingers.wiring.${field}`);
  const pin = finger.channel === undefined ? 'pin' : 'multiplexer input';
  resistor(wiring.topOhm, 'from supply to potentiometer', 'top');
  resistor(wiring.bottomOhm, 'from potentiometer to ground', 'bottom');
  resistor(wiring.pullDownOhm, `from ${pin} to ground`, 'pullDown');
  if (wiring.capacitorF > 0) {
    const spec = `${faradWords(wiring.capacitorF)} ceramic`;
    add('capacitor', spec, 1, `from ${pin} to ground`, 'fingers.wiring.capacitor');
  }
  add('wire', 'thin, flexible', WIRES.potentiometer * WIRE_M, 'potentiometers', 'fingers');
  add('connector', '3 poles', 1, 'so that a finger comes off for repair', 'fingers');
  const string = `${short(finger.stringDiameterMm)} mm, hardly stretching`;
  add('string', string, stringM(rig, finger), 'two strings a finger', 'fingers.spool.string');
  add('tube', 'about 1 mm inside', tubeM(rig, finger), 'guides along the back of the hand', 'fingers.guides');
  add('quickRelease', 'opens under a hard pull', 1, 'frees a finger at once', 'fingers');
}

function addResistor(add: Add, ohm: number, tolerance: number, purpose: string, from: string): void {
  if (ohm <= 0) return;
  const id = tolerance <= PRECISE ? 'preciseResistor' : 'resistor';
  add(id, `${ohmWords(ohm)} ${toleranceWords(tolerance)}`, 1, purpose, from);
}

/** One spare in five of every kind of potentiometer, over all hands. */
function addSpares(rig: Rig, hands: number, draft: PartDraft): void {
  const kinds = new Map<string, { pot: Potentiometer; count: number }>();
  for (const { potentiometer: pot } of rig.fingers) {
    const key = `${potId(pot)} ${potSpec(pot)}`;
    const { count } = kinds.get(key) ?? { count: 0 };
    kinds.set(key, { pot, count: count + hands });
  }
  for (const { pot, count } of kinds.values()) {
    const spares = Math.ceil(count / POTS_A_SPARE);
    draft.add(potId(pot), potSpec(pot), spares, spares === 1 ? 'spare' : 'spares', 'fingers.potentiometer');
  }
}

/** All that is read or sent beside the strings. */
function addInputs(rig: Rig, add: Add): void {
  if (rig.multiplexer) {
    add('multiplexer', '8 analog inputs, 3.3 V', 1, 'reads several strings on one pin', 'multiplexer');
    add('capacitor', `${faradWords(DECOUPLING_F)} ceramic`, 1, 'beside the multiplexer', 'multiplexer');
  }
  if (rig.rail) {
    const { topOhm, bottomOhm } = railResistors(rig.rail.divider);
    addResistor(add, topOhm, RAIL_TOLERANCE, 'from supply to the rail’s pin', 'rail.divider');
    addResistor(add, bottomOhm, RAIL_TOLERANCE, 'from the rail’s pin to ground', 'rail.divider');
    add('capacitor', `${faradWords(DECOUPLING_F)} ceramic`, 1, 'from the rail’s pin to ground', 'rail');
  }
  if (rig.joystick) {
    add('joystick', 'two axes, 10 kΩ', 1, 'for the thumb', 'joystick');
    const ends = joystickResistors(rig);
    if (ends) {
      addResistor(add, ends.topOhm, JOYSTICK_SERIES_TOLERANCE, 'from supply to the joystick', 'joystick');
      addResistor(add, ends.bottomOhm, JOYSTICK_SERIES_TOLERANCE, 'from the joystick to ground', 'joystick');
    }
    add('capacitor', `${faradWords(DECOUPLING_F)} ceramic`, 2, 'from each axis’ pin to ground', 'joystick');
    add('connector', '4 poles', 1, 'for the joystick', 'joystick');
    add('wire', 'thin, flexible', WIRES.joystick * WIRE_M, 'joystick', 'joystick');
  }
  const buttons = rig.buttons?.length ?? 0;
  add('button', 'closes to ground', buttons, 'one a pin', 'buttons');
  add('wire', 'thin, flexible', buttons * WIRES.button * WIRE_M, 'buttons', 'buttons');
  if (rig.frameLink) {
    add('serialAdapter', '3.3 V levels', 1, 'brings the second serial port to the computer', 'frameLink');
    add('wire', 'thin, flexible', WIRES.serialAdapter * WIRE_M, 'serial adapter', 'frameLink');
  }
}

/** What is printed, screwed and worn. */
function addBody(rig: Rig, hands: 1 | 2, add: Add): void {
  const units = rig.fingers.length;
  add('filament', 'PLA or PETG', filamentG(rig), 'spools, holders, guides and plate', 'fingers.spool.radius');
  add('screw', 'self-tapping, 2 × 8 mm', SCREWS_A_LID * units, 'lids of the units', 'fingers');
  add('screw', 'self-tapping, 2 × 4 mm', SCREWS_A_CAP * units, 'caps over the potentiometers', 'fingers');
  add('screw', 'M3 × 10, with nut', SCREWS_A_BOARD, 'holds the board', 'board');
  const side = hands === 2 ? 'one left, one right' : `for the ${rig.hand.side} hand`;
  const size = rig.hand.scale === 1 ? 'mean size' : `${short(rig.hand.scale)} × the mean size`;
  add('glove', `${side}, ${size}`, 1, 'holds the guides', 'hand');
  add('strap', '20-25 mm wide', STRAP_M, 'holds the plate, opens at once', 'hand');
}

/** Brakes as planned; whether they may be built is judged elsewhere. */
function addBrakes(rig: Rig, add: Add): void {
  const { brakes } = rig;
  if (!brakes) return;
  const count = brakes.pins.length;
  const needA = brakes.supplyA ?? brakes.stallA * count;
  add('servo', `stalls at ${short(brakes.stallA)} A`, count, 'one a brake', 'brakes.pins');
  if (brakes.supply === 'own') {
    add(
      'servoSupply',
      `${short(needA)} A or more`,
      1,
      'feeds the servos apart from the board',
      'brakes.supply',
    );
  }
  if (brakes.hasCutOff) {
    add(
      'servoSwitch',
      `${short(needA)} A or more`,
      1,
      'cuts the servos off when the board is silent',
      'brakes',
    );
  }
  if (brakes.clutchN !== undefined) {
    const spec = `slips at ${short(brakes.clutchN)} N of string`;
    add('slipClutch', spec, count, 'lets a finger pull through', 'brakes.clutch');
  }
  if (brakes.capacitorF !== undefined && brakes.capacitorF > 0) {
    add(
      'bufferCapacitor',
      `${faradWords(brakes.capacitorF)}, 10 V`,
      1,
      'beside the servos',
      'brakes.capacitor',
    );
  }
}
