import { z } from 'zod';
import type { Brakes } from '../../sim/rig/rig.ts';
import { mapping, pinNumber, quantity, word, yesNo } from './field.ts';

/**
 * `brakes`: what a maker plans beside the strings. A plan that could hurt is a plan all the same: it is read, and
 * refused where the build is judged.
 */
export const brakesSchema = mapping({
  pins: z.array(pinNumber('the GPIO number of a pin, such as 18')).min(1).max(5),
  stallCurrent: quantity('current', 0, 10, true),
  supply: word(['own', 'cell']),
  supplyCurrent: quantity('current', 0, 100, true).optional(),
  capacitor: quantity('capacitance', 0, 1).optional(),
  clutch: quantity('force', 0, 100, true).optional(),
  cutOff: yesNo().optional(),
});

/** The plan in the units of the rig. */
export function brakesOf(block: z.output<typeof brakesSchema>): Brakes {
  const brakes: Brakes = {
    pins: block.pins,
    stallA: block.stallCurrent,
    supply: block.supply,
    hasCutOff: block.cutOff ?? false,
  };
  if (block.supplyCurrent !== undefined) brakes.supplyA = block.supplyCurrent;
  if (block.capacitor !== undefined) brakes.capacitorF = block.capacitor;
  if (block.clutch !== undefined) brakes.clutchN = block.clutch;
  return brakes;
}
