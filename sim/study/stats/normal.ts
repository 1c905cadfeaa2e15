const TERMS = 80;
const DEPTH = 48;
const SERIES_LIMIT = 2.5;
const INVERSE_ROOT_TWO_PI = 1 / Math.sqrt(2 * Math.PI);

/** Density of the standard normal distribution at z. */
export function normalDensity(z: number): number {
  return INVERSE_ROOT_TWO_PI * Math.exp(-0.5 * z * z);
}

/**
 * Probability that a standard normal draw lies above z (the Q function).
 * @returns 0-1, relative error below 1e-12 for z from minus infinity up to 37; underflows towards 0 beyond 38.
 * Source: computed; the power series z + z³/3 + z⁵/15 + … near the centre, Laplace's continued fraction
 * z + 1/(z + 2/(z + 3/…)) in the tail.
 */
export function upperTail(z: number): number {
  if (z < 0) return 1 - upperTail(-z);
  if (z < SERIES_LIMIT) {
    let term = z;
    let sum = z;
    for (let n = 1; n < TERMS && term > 1e-17 * sum; n++) {
      term *= (z * z) / (2 * n + 1);
      sum += term;
    }
    return 0.5 - normalDensity(z) * sum;
  }
  let tail = z;
  for (let n = DEPTH; n > 0; n--) tail = z + n / tail;
  return normalDensity(z) / tail;
}
