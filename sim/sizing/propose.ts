import { boardFacts } from '../../firmware/boards/boards.ts';
import { DEFAULTS } from '../rig/defaults.ts';
import type { Finger, FingerName, Rig } from '../rig/rig.ts';
import { MOST_TRAVEL_SHARE } from '../spool/radius.ts';
import { type Change, propose } from './change.ts';
import { pinUses } from './pins/pin-uses.ts';
import { sizePins } from './pins/pins-size.ts';
import { isClash, type PreloadRange, preloadRange, type Stretch } from './strings/preload-range.ts';
import { sizeSpool } from './strings/spool-size.ts';
import { strokeMm } from './strings/stroke.ts';
import { cornerVolts, dividerOf, dividerOnSupply } from './wiring/corners.ts';
import { proposeResistors } from './wiring/resistors.ts';
import { E12, E24 } from './wiring/series.ts';
import { openWiperOf } from './wiring/wiring-open.ts';
import { settlingOf } from './wiring/wiring-settling.ts';

/** Most volts that a pin stands. */
const PIN_LIMIT_V = 3.3;
/** Resistors closer than this are bought as E24, others as E12. */
const CLOSE_TOLERANCE = 0.02;

export interface Proposal {
  /** In the order in which they are made: a later one counts on the earlier. */
  changes: Change[];
  /** The rig with all of them. */
  rig: Rig;
  /** What no change of values mends, in sentences. */
  left: string[];
}

/**
 * Values that make a build work, changing as little as can be: only what a limit asks for.
 * @param hands size of the smallest and the largest hand
 * @param measuredSprings fingers whose spring was measured: their torque is a fact, not a plan
 */
export function proposeValues(
  rig: Rig,
  hands: readonly [number, number],
  measuredSprings: ReadonlySet<FingerName>,
): Proposal {
  const changed = structuredClone(rig);
  const changes: Change[] = [];
  const left: string[] = [];
  for (const finger of changed.fingers) {
    const stroke = strokeMm(changed, finger, hands[1]);
    const isMeasured = measuredSprings.has(finger.name);
    proposeSpool(changed, finger, hands, isMeasured, changes, left);
    proposeSpring(finger, stroke, isMeasured, changes, left);
    proposeWiring(changed, finger, changes, left);
  }
  proposePinMoves(changed, changes, left);
  return { changes, rig: changed, left };
}

function proposeSpool(
  rig: Rig,
  finger: Finger,
  hands: readonly [number, number],
  isMeasured: boolean,
  changes: Change[],
  left: string[],
): void {
  const { worstShare, proposedRadiusMm } = sizeSpool(rig, finger, hands);
  if (worstShare <= MOST_TRAVEL_SHARE) return;
  if (isMeasured) {
    // Pulls belong to the spool that they were measured on: another radius beside them would be another spring.
    left.push(
      `${finger.name}: the largest hand uses ${(100 * worstShare).toFixed(1)} % of the travel. Take a spool of ${proposedRadiusMm} mm radius and measure the pulls again on it.`,
    );
    return;
  }
  propose(
    changes,
    finger,
    'spoolRadius',
    proposedRadiusMm,
    'the largest hand needs more travel than there is',
  );
}

/** Drag of a potentiometer that turns as easily as the default one, mN·m. */
const EASY_DRAG_MNM = DEFAULTS['finger.potentiometer.drag'].value as number;

function proposeSpring(
  finger: Finger,
  stroke: number,
  isMeasured: boolean,
  changes: Change[],
  left: string[],
): void {
  let range = preloadRange(finger, stroke);
  if (isClash(range.works) && finger.potentiometer.dragMNm > EASY_DRAG_MNM) {
    const eased = structuredClone(finger);
    eased.potentiometer.dragMNm = EASY_DRAG_MNM;
    if (!isClash(preloadRange(eased, stroke).works)) {
      const why = 'no spring turns the stiffer one back and stays below what a finger bears';
      propose(changes, finger, 'potentiometerDrag', EASY_DRAG_MNM, why);
      range = preloadRange(finger, stroke);
    }
  }
  if (isClash(range.works)) {
    const { least, most, cure } = range.works;
    left.push(`${finger.name}: no preload works. ${capital(least.words)}; but ${most.words}. Cure: ${cure}.`);
    return;
  }
  const goal = bestStretch(range);
  const { openTorqueMNm, perTurnMNm, strip } = finger.spring;
  if (openTorqueMNm >= goal.fromMNm && openTorqueMNm <= goal.toMNm) return;
  if (isMeasured) {
    left.push(
      `${finger.name}: the measured spring has ${openTorqueMNm.toFixed(2)} mN·m with the finger open; wind it to ${goal.fromMNm.toFixed(1)} to ${goal.toMNm.toFixed(1)} mN·m and measure again.`,
    );
    return;
  }
  const torque = torqueInside(openTorqueMNm, goal, strip ? perTurnMNm : undefined);
  if (torque === undefined) {
    left.push(
      `${finger.name}: the torque with the finger open has to lie between ${goal.fromMNm.toFixed(3)} and ${goal.toMNm.toFixed(3)} mN·m, too narrow to be wound: widen it with guides that rub less.`,
    );
    return;
  }
  const isWeak = openTorqueMNm < goal.fromMNm;
  propose(
    changes,
    finger,
    'springOpenTorque',
    torque,
    isWeak ? weakWords(range, goal) : strongWords(range, goal),
  );
}

/** The most demanding stretch that is not empty. */
function bestStretch({ works, comfortable, steady }: PreloadRange): Stretch {
  for (const stretch of [steady, comfortable, works]) if (!isClash(stretch)) return stretch;
  throw new RangeError('no preload works');
}

/**
 * The torque inside a stretch nearest to one outside, in steps as coarse as fit: of a tenth or a hundredth of a mN·m, or
 * of a turn where the file tells turns.
 */
function torqueInside(
  value: number,
  { fromMNm, toMNm }: Stretch,
  perTurnMNm: number | undefined,
): number | undefined {
  for (const digits of perTurnMNm === undefined ? [1, 2] : [1]) {
    const step = (perTurnMNm ?? 1) / 10 ** digits;
    const low = Math.ceil(fromMNm / step - 1e-9);
    const high = Math.floor(toMNm / step + 1e-9);
    if (low > high) continue;
    const count = value < fromMNm ? low : high;
    const units = Number((count / 10 ** digits).toFixed(digits));
    return perTurnMNm === undefined ? units : perTurnMNm * units;
  }
  return undefined;
}

function weakWords(range: PreloadRange, goal: Stretch): string {
  return limitWords(range, (torque) => Math.abs(torque - goal.fromMNm) < 1e-9);
}

function strongWords(range: PreloadRange, goal: Stretch): string {
  return limitWords(range, (torque) => Math.abs(torque - goal.toMNm) < 1e-9);
}

function limitWords({ limits }: PreloadRange, isIt: (torqueMNm: number) => boolean): string {
  return limits.find(({ openTorqueMNm }) => isIt(openTorqueMNm))?.words ?? 'a limit of the spring';
}

/** Resistor from the pin to ground that shows an open wiper within a few frames, ohm. */
const PULL_DOWN_OHM = DEFAULTS['finger.wiring.pullDown'].value as number;

function proposeWiring(rig: Rig, finger: Finger, changes: Change[], left: string[]): void {
  const { wiring } = finger;
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const range = [low / 1000, high / 1000] as const;
  if (wiring.pullDownOhm === 0) {
    propose(changes, finger, 'pullDown', PULL_DOWN_OHM, 'without it an open wiper looks like a hand');
  }
  if (rig.supply.volts > PIN_LIMIT_V) {
    left.push(
      `${finger.name}: ${rig.supply.volts} V over the potentiometer. Feed it from the 3V3 pin, write that as supply.voltage, and run this again for the resistors.`,
    );
    return;
  }
  const { lowestV, highestV } = cornerVolts(dividerOf(rig, finger));
  const isOut = lowestV < range[0] || highestV > range[1];
  const isBlind = openWiperOf(rig, finger).reason === 'no bottom resistor';
  if (isOut || isBlind) {
    const series = wiring.seriesTolerance <= CLOSE_TOLERANCE ? E24 : E12;
    const pair =
      proposeResistors(dividerOnSupply(rig, finger), range, series, true) ??
      proposeResistors(dividerOf(rig, finger), range, series, true);
    if (pair) {
      const why = isOut
        ? `in some corner of tolerance the pin leaves the straight range of ${range[0]} to ${range[1]} V`
        : 'without a resistor at the bottom an open wiper looks like the open hand';
      propose(changes, finger, 'topResistor', pair.topOhm, why);
      propose(changes, finger, 'bottomResistor', pair.bottomOhm, why);
    } else {
      left.push(
        `${finger.name}: no pair of resistors keeps every corner inside ${range[0]} to ${range[1]} V. Cure: a potentiometer of 10 kΩ with less tolerance, or 3.3 V over the potentiometers.`,
      );
    }
  }
  const settling = settlingOf(rig, finger);
  if (settling.settlingMs <= settling.frameMs) return;
  if (settling.proposedF === null) {
    left.push(
      `${finger.name}: the pin does not settle within a frame with any usual capacitor. Cure: a potentiometer of 10 kΩ.`,
    );
  } else {
    propose(changes, finger, 'capacitor', settling.proposedF, 'the pin has to settle within half a frame');
  }
}

/** Fingers on pins that something is wrong with go where the plan of pins puts them. */
function proposePinMoves(rig: Rig, changes: Change[], left: string[]): void {
  const { proposal } = sizePins(rig);
  if (!proposal.plan) {
    left.push(`pins: ${proposal.problem.seen}. Cure: ${proposal.problem.cure}.`);
    return;
  }
  const { plan } = proposal;
  if (plan.hasMultiplexer && !rig.multiplexer) {
    left.push(`pins: ${plan.multiplexerReason}. Cure: a multiplexer, as in the plan of pins.`);
    return;
  }
  const moves = rig.fingers.flatMap((finger) => {
    const planned = plan.pins.find(({ key }) => key === finger.name);
    return planned?.movedFrom === undefined ? [] : [{ finger, to: planned.pin }];
  });
  // Only fingers are moved here: a pin that a button or an axis still holds is not free.
  const moving = new Set(moves.map(({ finger }) => finger.pin));
  const held = pinUses(rig).filter(({ pin }) => !moving.has(pin));
  const blocked = moves.filter(({ to }) => held.some(({ pin }) => pin === to));
  if (blocked.length > 0) {
    const wires = blocked.map(({ finger, to }) => `${finger.name} to GPIO${to}`).join(', ');
    left.push(
      `pins: better places are ${wires}, which other wires hold; see the plan of pins for all of them.`,
    );
    return;
  }
  for (const { finger, to } of moves)
    propose(changes, finger, 'pin', to, 'it is the better pin of the board');
}

function capital(text: string): string {
  return text[0]!.toUpperCase() + text.slice(1);
}
