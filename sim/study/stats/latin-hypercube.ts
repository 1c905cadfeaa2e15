import { rnd } from '../../seed/mix.ts';

/**
 * Latin hypercube: along every axis, each of `points` equal strata holds exactly one point, at a random
 * place inside it; the axes are shuffled independently.
 * @param points number of points, integer >= 1
 * @param axes number of coordinates, integer >= 1
 * @param k0 first key word of the random stream, best from `keys`
 * @param k1 second key word
 * @returns [point * axes + axis], each 0 <= value < 1
 * Source: McKay, Beckman, Conover, Technometrics 21 (1979) 239.
 */
export function latinHypercube(points: number, axes: number, k0: number, k1: number): Float64Array {
  const result = new Float64Array(points * axes);
  const strata = new Int32Array(points);
  const unit = (draw: number): number => (rnd(draw, k0, k1) >>> 0) / 4294967296;
  let draw = 0;
  for (let axis = 0; axis < axes; axis++) {
    for (let i = 0; i < points; i++) strata[i] = i;
    for (let i = points - 1; i > 0; i--) {
      const j = Math.floor(unit(draw++) * (i + 1));
      const swap = strata[i];
      strata[i] = strata[j];
      strata[j] = swap;
    }
    for (let i = 0; i < points; i++) result[i * axes + axis] = (strata[i] + unit(draw++)) / points;
  }
  return result;
}
