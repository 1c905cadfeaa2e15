/**
 * Middle one of three successive readings: takes out any single wrong one, costs one frame of delay.
 * The order of the arguments does not matter.
 */
export function medianOfThree(a: number, b: number, c: number): number {
  return a > b ? (b > c ? b : a > c ? c : a) : a > c ? a : b > c ? c : b;
}
