import { E24, valuesOf } from './series.ts';

/** Resistor to ground of the rail's divider, ohm: draws little, and charges the converter in time. Assumed. */
const LEAST_BOTTOM_OHM = 4_700;
const MOST_BOTTOM_OHM = 22_000;

/**
 * Two E24 resistors that divide the supply by so much, as nearly as the series allows.
 * @param share of the supply at the pin, more than 0 and at most 1
 * @returns ohm; the top one is 0 (a wire) at a share of 1, and the bottom one is then left out (0)
 */
export function railResistors(share: number): { topOhm: number; bottomOhm: number } {
  if (share >= 1) return { topOhm: 0, bottomOhm: 0 };
  let best = { topOhm: 0, bottomOhm: 0 };
  let bestMiss = Number.POSITIVE_INFINITY;
  for (const bottomOhm of valuesOf(E24, LEAST_BOTTOM_OHM, MOST_BOTTOM_OHM)) {
    for (const topOhm of valuesOf(E24, 100, 10_000_000)) {
      const miss = Math.abs(bottomOhm / (topOhm + bottomOhm) / share - 1);
      // of equally good pairs the one nearest to 10 k at the bottom, the value most likely in the drawer
      const isNearer = Math.abs(bottomOhm - 10_000) < Math.abs(best.bottomOhm - 10_000);
      if (miss < bestMiss - 1e-12 || (miss < bestMiss + 1e-12 && isNearer)) {
        best = { topOhm, bottomOhm };
        bestMiss = Math.min(miss, bestMiss);
      }
    }
  }
  return best;
}
