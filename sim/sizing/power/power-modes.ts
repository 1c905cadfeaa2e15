import type { Rig } from '../../rig/rig.ts';
import { CELL_SHARE, cellCurrentMA, extrasMA, hoursOnCell, potentiometersMA } from './power.ts';

/**
 * What the board does, and its current, mA (ESP32 datasheet; where it names a range the upper end is taken). The
 * figures of the other chips are near them; assumed.
 */
export const POWER_MODES = [
  { id: 'radioOff', label: 'radio off', boardMA: 68 },
  { id: 'bluetooth', label: 'Bluetooth, sending', boardMA: 130 },
  { id: 'wifi', label: 'Wi-Fi, sending', boardMA: 240 },
  { id: 'lightSleep', label: 'light sleep', boardMA: 0.8 },
  { id: 'deepSleep', label: 'deep sleep with timer', boardMA: 0.01 },
] as const;

/** Middle of a lithium cell's discharge, V, and efficiency of a small switching regulator. Assumed. */
const CELL_V = 3.7;
const BUCK_EFFICIENCY = 0.9;

export interface ModePower {
  id: (typeof POWER_MODES)[number]['id'];
  label: string;
  /** Board, potentiometers, rail and joystick: what a linear regulator takes from the cell as well. */
  loadMA: number;
  hours: number;
  /** With a switching regulator: from the cell, and how long. */
  buckMA: number;
  buckHours: number;
}

/** Current and time on a cell in each mode, as if the board did nothing else. */
export function powerModes(rig: Rig, capacityMAh: number): ModePower[] {
  const { railMA, joystickMA } = extrasMA(rig);
  const wiredMA = potentiometersMA(rig) + railMA + joystickMA;
  return POWER_MODES.map(({ id, label, boardMA }) => {
    const loadMA = boardMA + wiredMA;
    const buckMA = cellCurrentMA(loadMA, rig.supply.volts, CELL_V, BUCK_EFFICIENCY);
    return {
      id,
      label,
      loadMA,
      hours: hoursOnCell(capacityMAh, CELL_SHARE, loadMA),
      buckMA,
      buckHours: hoursOnCell(capacityMAh, CELL_SHARE, buckMA),
    };
  });
}
