import type { PartId } from '../../sim/sizing/parts/part-catalogue.ts';
import type { Prices } from '../../sim/sizing/parts/prices.ts';

/**
 * Prices to plan with until there is a price file: round figures made up in one sitting, from no shop and no
 * offer. Assumed, every one of them.
 */
const INVENTED: Record<PartId, number> = {
  'board-esp32': 8,
  'board-esp32-s3': 9,
  'board-esp32-c3': 5,
  potentiometer: 1.5,
  longLifePotentiometer: 6,
  multiTurnPotentiometer: 7,
  spring: 1.5,
  resistor: 0.05,
  preciseResistor: 0.1,
  capacitor: 0.1,
  bufferCapacitor: 0.3,
  multiplexer: 2,
  joystick: 2,
  button: 0.2,
  serialAdapter: 4,
  stripBoard: 1,
  connector: 0.3,
  wire: 0.2,
  usbCable: 3,
  string: 0.1,
  tube: 1.5,
  quickRelease: 0.3,
  filament: 0.03,
  screw: 0.1,
  glove: 4,
  strap: 1,
  cell: 8,
  cellCharger: 15,
  cellRegulator: 3,
  servo: 4,
  servoSupply: 12,
  slipClutch: 2,
  servoSwitch: 2,
};

/** A fresh object each time. */
export function defaultPrices(): Prices {
  const of: Prices['of'] = {};
  for (const [id, amount] of Object.entries(INVENTED)) of[id as PartId] = { amount };
  return {
    currency: 'EUR',
    date: '2026-11-25',
    source: 'invented round figures for planning, from no shop',
    of,
  };
}
