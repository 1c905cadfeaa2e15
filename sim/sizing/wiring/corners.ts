import { dividerVolts } from '../../pot/divider.ts';
import type { Finger, Rig } from '../../rig/rig.ts';

/** Highest voltage that a pin of these boards stands, V (datasheets: supply of 3.3 V nominal). */
export const PIN_LIMIT_V = 3.3;

/** A potentiometer between two resistors. */
export interface Divider {
  potOhm: number;
  /** 0.2 = ±20 % */
  potTolerance: number;
  topOhm: number;
  bottomOhm: number;
  /** Of both resistors. */
  seriesTolerance: number;
  /** From the pin to ground; 0 = none. */
  pullDownOhm: number;
  supplyV: number;
  /** 0.03 = ±3 %; 0 leaves the supply at its nominal value. */
  supplyTolerance: number;
  /** Share by which the supply may fall, where that is more than its tolerance: it sags, but never upwards. */
  supplyDown?: number;
}

/** Lowest and highest voltage at the pin over all corners of all tolerances and both ends of the travel. */
export function cornerVolts(divider: Divider): { lowestV: number; highestV: number } {
  let lowestV = Number.POSITIVE_INFINITY;
  let highestV = Number.NEGATIVE_INFINITY;
  for (const pot of SIGNS) {
    for (const top of SIGNS) {
      for (const bottom of SIGNS) {
        for (const supply of [-(divider.supplyDown ?? divider.supplyTolerance), divider.supplyTolerance]) {
          for (const x of [0, 1]) {
            const volts = dividerVolts(
              x,
              divider.supplyV * (1 + supply),
              divider.potOhm * (1 + pot * divider.potTolerance),
              divider.topOhm * (1 + top * divider.seriesTolerance),
              divider.bottomOhm * (1 + bottom * divider.seriesTolerance),
              divider.pullDownOhm,
            );
            lowestV = Math.min(lowestV, volts);
            highestV = Math.max(highestV, volts);
          }
        }
      }
    }
  }
  return { lowestV, highestV };
}

const SIGNS = [-1, 1];

/** Voltage between both ends of the travel with every part at its nominal value. */
export function nominalSpanV(divider: Divider): number {
  const [low, high] = nominalEndsV(divider);
  return high - low;
}

/** Voltage at both ends of the travel with every part at its nominal value. */
export function nominalEndsV(divider: Divider): [low: number, high: number] {
  const at = (x: number) =>
    dividerVolts(x, divider.supplyV, divider.potOhm, divider.topOhm, divider.bottomOhm, divider.pullDownOhm);
  return [at(0), at(1)];
}

/** The divider that a finger hangs in. */
export function dividerOf(rig: Rig, finger: Finger): Divider {
  const { wiring, potentiometer: pot } = finger;
  return {
    potOhm: pot.resistanceOhm,
    potTolerance: pot.tolerance,
    topOhm: wiring.topOhm,
    bottomOhm: wiring.bottomOhm,
    seriesTolerance: wiring.seriesTolerance,
    pullDownOhm: wiring.pullDownOhm,
    supplyV: rig.supply.volts,
    supplyTolerance: 0,
  };
}

/** By how much the supply may be low, share: its tolerance, and its sag on top. */
export function supplySpread(rig: Rig): number {
  return 1 - (1 - rig.supply.tolerance) * (1 - rig.supply.sag);
}

/** The divider that a finger hangs in, on a supply that is anywhere in its tolerance and sags. */
export function dividerOnSupply(rig: Rig, finger: Finger): Divider {
  return {
    ...dividerOf(rig, finger),
    supplyTolerance: rig.supply.tolerance,
    supplyDown: supplySpread(rig),
  };
}
