/** Preferred values of resistors (IEC 60063), one decade. */
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
