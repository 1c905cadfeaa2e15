const BITS = 32;

/** Degree, coefficients and initial direction numbers of axes 2 and up. */
const TABLE: ReadonlyArray<readonly [number, number, readonly number[]]> = [
  [1, 0, [1]],
  [2, 1, [1, 3]],
  [3, 1, [1, 3, 1]],
  [3, 2, [1, 1, 1]],
  [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]],
  [5, 2, [1, 1, 5, 5, 17]],
  [5, 4, [1, 1, 5, 5, 5]],
  [5, 7, [1, 1, 7, 11, 19]],
  [5, 11, [1, 1, 5, 1, 1]],
  [5, 13, [1, 1, 1, 3, 11]],
  [5, 14, [1, 3, 5, 5, 31]],
  [6, 1, [1, 3, 3, 9, 7, 49]],
  [6, 13, [1, 1, 1, 15, 21, 21]],
  [6, 16, [1, 3, 1, 13, 27, 49]],
];

/** Number of axes that `sobol` knows. */
export const SOBOL_AXES = TABLE.length + 1;

const DIRECTIONS = directionNumbers();

function directionNumbers(): Uint32Array {
  const all = new Uint32Array(SOBOL_AXES * BITS);
  for (let bit = 0; bit < BITS; bit++) all[bit] = 2 ** (BITS - 1 - bit);
  TABLE.forEach(([degree, coefficients, initial], row) => {
    const v = all.subarray((row + 1) * BITS, (row + 2) * BITS);
    for (let bit = 0; bit < degree; bit++) v[bit] = initial[bit] * 2 ** (BITS - 1 - bit);
    for (let bit = degree; bit < BITS; bit++) {
      let next = v[bit - degree] ^ (v[bit - degree] >>> degree);
      for (let k = 1; k < degree; k++) {
        if ((coefficients >>> (degree - 1 - k)) & 1) next ^= v[bit - k];
      }
      v[bit] = next;
    }
  });
  return all;
}

/**
 * One coordinate of one point of the unscrambled Sobol sequence in Gray-code order. Any point can be asked
 * for alone. Use the first 2^m points together: other numbers of points lose the balance.
 * @param index number of the point, integer, 0 to 2^32 − 1; point 0 is the origin
 * @param axis 0 to SOBOL_AXES − 1
 * @returns 0 <= value < 1
 * @throws RangeError for an axis that is not in the table
 * Source: Joe and Kuo, SIAM J. Sci. Comput. 30 (2008) 2635, table new-joe-kuo-6; order of Antonov and
 * Saleev (1979).
 */
export function sobol(index: number, axis: number): number {
  if (!(axis >= 0 && axis < SOBOL_AXES)) {
    throw new RangeError(`sobol: axis ${axis}; expected 0 to ${SOBOL_AXES - 1}`);
  }
  let gray = (index ^ (index >>> 1)) >>> 0;
  let bits = 0;
  for (let at = axis * BITS; gray !== 0; at++) {
    if (gray & 1) bits ^= DIRECTIONS[at];
    gray >>>= 1;
  }
  return (bits >>> 0) / 4294967296;
}
