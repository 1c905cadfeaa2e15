/** How a lithium polymer cell may be charged, used and kept: makers' guides. */
export const CELL_CARE = {
  chargeTo: '4.20 V ± 0.05 V',
  chargeBetween: '0 and 45 °C',
  cutOffV: 3.0,
  neverBelowV: 2.75,
  storeBetween: '3.6 to 3.9 V',
} as const;

/** What to tell beside any figure about a cell. */
export const CELL_CAUTIONS = [
  'Use protected cells and a certified charger; the maker’s own limits come before these figures.',
  'Never charge a cell while the hand is worn, nor unattended.',
  'Never puncture, heat, bend or solder a cell; one that swells is done with and goes where your town takes such cells.',
  'Local rules and qualified people come first.',
] as const;

/** Fastest charge, mA: the capacity in one hour (1C); half of it is kinder to the cell. */
export function chargeMA(capacityMAh: number): { most: number; kinder: number } {
  return { most: capacityMAh, kinder: capacityMAh / 2 };
}
