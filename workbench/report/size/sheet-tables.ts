import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Finger, FingerName, Rig } from '../../../sim/rig/rig.ts';
import { pinFault } from '../../../sim/sizing/pins/pin-rules.ts';
import { strokeMm } from '../../../sim/sizing/strings/stroke.ts';
import { faradWords, ohmWords, short, toleranceWords } from '../../../sim/sizing/value-words.ts';
import { joystickResistors } from '../../../sim/sizing/wiring/divider-parts.ts';
import { type Cell, list, paragraph, table } from '../html.ts';

/** What was worked out of a finger elsewhere; whatever is left out is worked out here from the rig, or not shown. */
export interface FingerSheet {
  /** String drawn at full closure, mm. */
  strokeMm?: number;
  /** Turns that the spring is wound before the string is tied. */
  preloadTurns?: number;
  /** String to cut, mm. */
  cutMm?: number;
}

export type FingerSheets = Partial<Record<FingerName, FingerSheet>>;

/** More guides than this are summed up. */
const GUIDES_LISTED = 3;

/** Dimensions of each finger on this hand. */
export function dimensionTable(rig: Rig, sheets: FingerSheets): string {
  const isCut = rig.fingers.some(({ name }) => sheets[name]?.cutMm !== undefined);
  const heads: Cell[] = [
    { text: 'Finger' },
    { text: 'String to joint axis, mm' },
    { text: 'Guides: bend, friction' },
    { text: 'Spool radius, mm', kind: 'n' },
    { text: 'String ⌀, mm', kind: 'n' },
    { text: 'Drawn, mm', kind: 'n' },
    { text: 'Spring preload', kind: 'n' },
  ];
  const rows = rig.fingers.map((finger): Cell[] => {
    const sheet = sheets[finger.name] ?? {};
    const drawn = sheet.strokeMm ?? strokeMm(rig, finger, rig.hand.scale);
    const cut = sheet.cutMm === undefined ? '' : ` × ${sheet.cutMm.toFixed(0)}`;
    return [
      { text: finger.name },
      { text: armWords(rig, finger), name: 'string to joint axis, mm:' },
      { text: guideWords(finger), name: 'guides:' },
      { text: short(finger.spoolRadiusMm), kind: 'n', name: 'spool radius, mm:' },
      { text: short(finger.stringDiameterMm) + cut, kind: 'n', name: 'string ⌀, mm:' },
      { text: drawn.toFixed(1), kind: 'n', name: 'drawn at full closure, mm:' },
      { text: preloadWords(finger, sheet), kind: 'n', name: 'spring preload:' },
    ];
  });
  const notes =
    'Joints from the hand to the tip: MCP, PIP, DIP; of the thumb CMC, MCP, IP. Drawn: at full closure. ' +
    `Preload: turns wound before the string is tied, and the torque that this gives.${isCut ? ' String: ⌀ × length to cut.' : ''}`;
  return table(heads, rows, { class: 'stack' }) + paragraph(notes, 'small');
}

function armWords(rig: Rig, { momentArmsMm }: Finger): string {
  return momentArmsMm.map((arm) => Number((arm * rig.hand.scale).toFixed(1))).join(' / ');
}

function guideWords({ guides }: Finger): string {
  if (guides.length === 0) return 'none';
  if (guides.length > GUIDES_LISTED) {
    const sum = guides.reduce((total, { wrapDeg }) => total + wrapDeg, 0);
    return `${guides.length} guides, ${short(sum)}° in all`;
  }
  const frictions = new Set(guides.map(({ friction }) => friction));
  if (frictions.size === 1) {
    return `${guides.map(({ wrapDeg }) => `${short(wrapDeg)}°`).join(' + ')}, ${short(guides[0]!.friction)}`;
  }
  return guides.map(({ wrapDeg, friction }) => `${short(wrapDeg)}°, ${short(friction)}`).join(' + ');
}

function preloadWords({ spring }: Finger, sheet: FingerSheet): string {
  const torque = `${short(spring.openTorqueMNm)} mN·m`;
  const turns =
    sheet.preloadTurns ?? (spring.perTurnMNm > 0 ? spring.openTorqueMNm / spring.perTurnMNm : undefined);
  return turns === undefined ? torque : `${turns.toFixed(1)} turns, ${torque}`;
}

/** Wires of each finger, then all others. */
export function wiringTable(rig: Rig): string {
  const none = (value: number, words: (value: number) => string) => (value > 0 ? words(value) : '–');
  const heads: Cell[] = [
    { text: 'Finger' },
    { text: 'Wiper to' },
    { text: 'Potentiometer', kind: 'n' },
    { text: 'Supply to its top', kind: 'n' },
    { text: 'Its bottom to ground', kind: 'n' },
    { text: 'Wiper to ground', kind: 'n' },
    { text: 'Capacitor there', kind: 'n' },
  ];
  const rows = rig.fingers.map((finger): Cell[] => {
    const { wiring, potentiometer: pot } = finger;
    const ohms = (value: number) => (value > 0 ? ohmWords(value) : 'a wire');
    return [
      { text: finger.name },
      { text: pinWords(finger), name: 'wiper to:' },
      { text: ohmWords(pot.resistanceOhm), kind: 'n', name: 'potentiometer:' },
      { text: ohms(wiring.topOhm), kind: 'n', name: 'supply to its top:' },
      { text: ohms(wiring.bottomOhm), kind: 'n', name: 'its bottom to ground:' },
      { text: none(wiring.pullDownOhm, ohmWords), kind: 'n', name: 'wiper to ground:' },
      { text: none(wiring.capacitorF, faradWords), kind: 'n', name: 'capacitor, wiper to ground:' },
    ];
  });
  const tolerances = [...new Set(rig.fingers.map(({ wiring }) => toleranceWords(wiring.seriesTolerance)))];
  const supply =
    `Supply: ${short(rig.supply.volts)} V from the board, never 5 V. Resistors ${tolerances.join(' or ')}. ` +
    'Top: the end that the wiper comes near as the finger closes. Resistors and capacitors sit beside the board.';
  const others = otherWires(rig);
  return (
    table(heads, rows, { class: 'stack' }) +
    paragraph(supply, 'small') +
    (others.length > 0 ? list(others, 'plain wires') : '')
  );
}

function pinWords({ pin, channel }: Finger): string {
  return channel === undefined ? `GPIO${pin}` : `multiplexer input ${channel}`;
}

function otherWires(rig: Rig): string[] {
  const wires: string[] = [];
  const pins = (list: readonly number[]) => list.map((pin) => `GPIO${pin}`).join(', ');
  if (rig.multiplexer) {
    const { signalPin, selectPins } = rig.multiplexer;
    wires.push(
      `Multiplexer: common line to GPIO${signalPin}; select lines, lowest first, to ${pins(selectPins)}.`,
    );
  }
  if (rig.joystick) {
    const ends = joystickResistors(rig);
    const supply = ends
      ? `supply through ${ohmWords(ends.topOhm)}, ground through ${ohmWords(ends.bottomOhm)}, 100 nF from each pin to ground`
      : 'no pair of resistors keeps it inside the converter’s range';
    wires.push(`Joystick: x to GPIO${rig.joystick.xPin}, y to GPIO${rig.joystick.yPin}; ${supply}.`);
  }
  if (rig.buttons) wires.push(`Buttons, each from its pin to ground: ${pins(rig.buttons)}.`);
  if (rig.rail)
    wires.push(
      `Supply measured at GPIO${rig.rail.pin} through a divider to ${short(100 * rig.rail.divider)} %.`,
    );
  if (rig.frameLink)
    wires.push(`Second serial port: GPIO${rig.frameLink.txPin} to the adapter’s input, ground to ground.`);
  if (rig.brakes) {
    const facts = boardFacts(rig.board);
    const unfit = rig.brakes.pins.filter((pin) => pinFault(facts, pin, 'drive') !== undefined);
    const words = unfit.length > 0 ? `, of which ${pins(unfit)} are not fit: see the plan of pins` : '';
    wires.push(`Brakes: servo signals to ${pins(rig.brakes.pins)}${words}.`);
  }
  return wires;
}
