import { cornerVolts, type Divider, nominalSpanV } from './corners.ts';
import { valuesOf } from './series.ts';

export interface ResistorPair {
  topOhm: number;
  bottomOhm: number;
  lowestV: number;
  highestV: number;
  /** Between both ends of the travel, nominal. */
  spanV: number;
}

/** Values looked through, ohm. A resistor above the potentiometer itself wastes most of the range. */
const LEAST_OHM = 100;
const MOST_OHM = 22_000;
/** Least voltage with the wiper in place: half of it is still told apart from an open wire. Assumed. */
const OPEN_VISIBLE_V = 0.1;

/**
 * The pair of resistors that keeps every corner of tolerance inside the converter's range and leaves the widest span.
 * @param divider its own two resistors do not count
 * @param rangeV lowest and highest voltage that the chip's maker vouches for
 * @param series `E12` or `E24`
 * @param keepsOpenVisible a resistor at the bottom is a must: without one an open wiper looks like the open hand
 * @returns undefined when no pair does
 */
export function proposeResistors(
  divider: Divider,
  rangeV: readonly [number, number],
  series: readonly number[],
  keepsOpenVisible: boolean,
): ResistorPair | undefined {
  const leastV = keepsOpenVisible ? Math.max(rangeV[0], OPEN_VISIBLE_V) : rangeV[0];
  const values = valuesOf(series, LEAST_OHM, MOST_OHM);
  let best: ResistorPair | undefined;
  for (const topOhm of [0, ...values]) {
    for (const bottomOhm of keepsOpenVisible ? values : [0, ...values]) {
      const tried = { ...divider, topOhm, bottomOhm };
      const { lowestV, highestV } = cornerVolts(tried);
      if (lowestV < leastV || highestV > rangeV[1]) continue;
      const spanV = nominalSpanV(tried);
      if (!best || spanV > best.spanV) best = { topOhm, bottomOhm, lowestV, highestV, spanV };
    }
  }
  return best;
}
