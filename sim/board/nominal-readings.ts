import { DEFAULT_ATTENUATION_DB } from '../../firmware/boards/adc-curve.ts';
import type { Ends } from '../../firmware/chain/word-scale.ts';
import { buildCurveTable, codeOf, countsAt } from '../adc/curve.ts';
import { dividerVolts } from '../pot/divider.ts';
import type { Finger, Rig } from '../rig/rig.ts';
import { createChannel, pinVolts, wiperAt } from '../study/channel.ts';
import { nominalFinger, REFERENCE_SPREAD } from '../study/draw-parts.ts';

/** Readings are counts over this. */
const COUNTS = 4096;

/**
 * Voltage at the pin with the finger open and closed, with every part at its nominal value. Play takes nothing.
 */
export function nominalVolts(rig: Rig, finger: Finger): { openV: number; closedV: number } {
  const parts = nominalFinger(rig, finger);
  const channel = createChannel(finger, parts);
  const volts = (stringMm: number) => pinVolts(channel, wiperAt(channel, stringMm), rig.supply.volts);
  return { openV: volts(0), closedV: volts(parts.fullMm) };
}

/**
 * Ends of a finger as the rig's nominal parts give them: what a program starts with before the first calibration.
 * Mean readings, 0-1, of an average chip without noise; play takes nothing.
 */
export function nominalEnds(rig: Rig, finger: Finger): Ends {
  const { openV, closedV } = nominalVolts(rig, finger);
  return { open: nominalReading(rig, openV), closed: nominalReading(rig, closedV) };
}

/**
 * Lowest mean reading, 0-1, that a finger gives with its wiper in place, over the corners of all tolerances and the
 * spread of the chips' reference.
 * @returns 0 where the wiring cannot tell an open wiper: no resistor at the bottom, or none from the pin to ground
 */
export function leastReading(rig: Rig, finger: Finger): number {
  const { wiring, potentiometer: pot } = finger;
  if (wiring.bottomOhm === 0 || wiring.pullDownOhm === 0) return 0;
  const curve = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, 1 / (1 + REFERENCE_SPREAD), 0);
  const supplyV = rig.supply.volts * (1 - rig.supply.tolerance) * (1 - rig.supply.sag);
  const volts = dividerVolts(
    0,
    supplyV,
    pot.resistanceOhm * (1 + pot.tolerance),
    wiring.topOhm * (1 + wiring.seriesTolerance),
    wiring.bottomOhm * (1 - wiring.seriesTolerance),
    wiring.pullDownOhm,
  );
  return codeOf(countsAt(curve, volts)) / COUNTS;
}

/** Mean reading, 0-1, of an average chip at a voltage. */
export function nominalReading(rig: Rig, volts: number): number {
  return codeOf(countsAt(buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, 1, 0), volts)) / COUNTS;
}
