import fc from 'fast-check';

/**
 * Real numbers spread evenly from min to max, both ends included. fast-check's own doubles are even over bit
 * patterns: in a range that holds 0 nearly all of them are too small to test anything.
 */
export function evenly(min: number, max: number): fc.Arbitrary<number> {
  const top = 2 ** 31 - 1;
  return fc.integer({ min: 0, max: top }).map((i) => (i === top ? max : min + ((max - min) * i) / top));
}
