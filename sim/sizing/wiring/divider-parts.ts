import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Rig } from '../../rig/rig.ts';
import { dividerOf } from './corners.ts';
import { railResistors } from './rail-resistors.ts';
import { proposeResistors } from './resistors.ts';
import { E12 } from './series.ts';

/** Two resistors, from the voltage to the pin and from the pin to ground, ohm; 0 at the top = a wire. */
export interface TwoResistors {
  topOhm: number;
  bottomOhm: number;
}

/** Potentiometer of each axis of a usual small joystick, ohm. Assumed. */
export const JOYSTICK_OHM = 10_000;
/** Its tolerance. Assumed. */
const JOYSTICK_TOLERANCE = 0.2;

/**
 * Resistors ahead of both ends of a joystick, whose two potentiometers hang side by side on the same two ends.
 * They carry the current of both, and no wiper draws any, so that one axis does not move the other.
 * @returns undefined when no pair keeps both axes inside the converter's range
 */
export function joystickResistors(rig: Rig): TwoResistors | undefined {
  const [finger] = rig.fingers;
  if (!finger) return undefined;
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const divider = {
    ...dividerOf(rig, finger),
    potOhm: JOYSTICK_OHM / 2,
    potTolerance: JOYSTICK_TOLERANCE,
    pullDownOhm: 0,
  };
  const pair = proposeResistors(divider, [low / 1000, high / 1000], E12, true);
  return pair && { topOhm: pair.topOhm, bottomOhm: pair.bottomOhm };
}

/** Resistors of the rail's divider; undefined when the rig measures no rail. */
export function railParts(rig: Rig): TwoResistors | undefined {
  return rig.rail && railResistors(rig.rail.divider);
}

/** A full lithium cell, V (usual charging voltage, ±0.05 V). */
const FULL_CELL_V = 4.25;
/** Drawn from the cell all the time, so large ones; with a capacitor at the pin. Assumed. */
const CELL_DIVIDER_OHM = 100_000;

/** Resistors between cell, pin and ground: halves where the converter's range allows it, else a third. */
export function cellParts(rig: Rig): TwoResistors {
  const highV = boardFacts(rig.board).adcRangeMv[1] / 1000;
  const topOhm = FULL_CELL_V / 2 <= highV ? CELL_DIVIDER_OHM : 2 * CELL_DIVIDER_OHM;
  return { topOhm, bottomOhm: CELL_DIVIDER_OHM };
}
