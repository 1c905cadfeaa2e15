import type { Rig } from '../../rig/rig.ts';
import { JOYSTICK_OHM, joystickResistors } from '../wiring/divider-parts.ts';
import { railResistors } from '../wiring/rail-resistors.ts';

/** Usable share of a cell. Assumed. */
export const CELL_SHARE = 0.85;

/**
 * Time that a cell lasts.
 * @param capacityMAh printed on the cell
 * @param share of it that is usable, 0-1
 */
export function hoursOnCell(capacityMAh: number, share: number, currentMA: number): number {
  return (capacityMAh * share) / currentMA;
}

/**
 * Current that a switching regulator takes from the cell.
 * @param efficiency 0-1
 */
export function cellCurrentMA(loadMA: number, loadV: number, cellV: number, efficiency: number): number {
  return (loadMA * loadV) / (cellV * efficiency);
}

/** Current through all potentiometers with their resistors, mA; pull-downs add less than a tenth. */
export function potentiometersMA(rig: Rig): number {
  return rig.fingers.reduce((sum, { wiring, potentiometer }) => {
    const totalOhm = wiring.topOhm + potentiometer.resistanceOhm + wiring.bottomOhm;
    return sum + (1000 * rig.supply.volts) / totalOhm;
  }, 0);
}

/** Current through the divider of the rail pin and through a joystick, mA; 0 where there is none. */
export function extrasMA(rig: Rig): { railMA: number; joystickMA: number } {
  const rail = rig.rail && railResistors(rig.rail.divider);
  const railOhm = rail ? rail.topOhm + rail.bottomOhm : 0;
  // Both axes side by side between the joystick's two resistors.
  const ends = joystickResistors(rig) ?? { topOhm: 0, bottomOhm: 0 };
  const joystickOhm = ends.topOhm + JOYSTICK_OHM / 2 + ends.bottomOhm;
  return {
    railMA: railOhm > 0 ? (1000 * rig.supply.volts) / railOhm : 0,
    joystickMA: rig.joystick ? (1000 * rig.supply.volts) / joystickOhm : 0,
  };
}

/**
 * Capacitor that carries a sudden current until the supply has answered: I·t/dV.
 * @param dipV by how much the voltage may fall meanwhile
 * @returns F
 */
export function bufferF(stepA: number, answerS: number, dipV: number): number {
  return (stepA * answerS) / dipV;
}
