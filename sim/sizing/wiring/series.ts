/** Preferred values (IEC 60063), one decade: E6 for capacitors, E12 and E24 for resistors. */
export const E6 = [10, 15, 22, 33, 47, 68] as const;
export const E12 = [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82] as const;
export const E24 = [
  10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
] as const;

/**
 * All values of a series between two bounds, rising.
 * @param leastOhm > 0
 */
export function valuesOf(series: readonly number[], leastOhm: number, mostOhm: number): number[] {
  const values: number[] = [];
  for (let decade = Math.floor(Math.log10(leastOhm)) - 1; decade <= Math.log10(mostOhm); decade++) {
    for (const value of series) {
      // whole numbers stay whole: 5.6 k is 5600, not 5600.000000000001
      const ohm = decade >= 0 ? value * 10 ** decade : value / 10 ** -decade;
      if (ohm >= leastOhm && ohm <= mostOhm) values.push(ohm);
    }
  }
  return values;
}

/**
 * The largest value of a series that is not above a number; capacitors in pF, so that whole numbers stay whole.
 * @returns undefined when even `least` is above it
 */
export function valueBelow(series: readonly number[], most: number, least: number): number | undefined {
  return least > most ? undefined : valuesOf(series, least, most).at(-1);
}

/** The smallest value of a series that is not below a number > 0. */
export function valueAbove(series: readonly number[], least: number): number {
  return valuesOf(series, least, least * 10)[0]!;
}
