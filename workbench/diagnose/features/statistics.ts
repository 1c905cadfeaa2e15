/** Any row of numbers. */
export type Values = ArrayLike<number>;

/** NaN for an empty row. */
export function meanOf(values: Values): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
}

/** Standard deviation, divided by n. */
export function sdOf(values: Values): number {
  const mean = meanOf(values);
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (values[i]! - mean) ** 2;
  return Math.sqrt(sum / values.length);
}

/** A sorted copy without the values that are no numbers. */
export function sortedOf(values: Values): Float64Array {
  return Float64Array.from(values)
    .filter((v) => !Number.isNaN(v))
    .sort();
}

/** Quantile of a sorted row, straight between neighbours. @param share 0-1 */
export function quantileOf(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const a = sorted[below]!;
  return below + 1 < sorted.length ? a + (at - below) * (sorted[below + 1]! - a) : a;
}

export function medianOf(values: Values): number {
  return quantileOf(sortedOf(values), 0.5);
}

/** Half of a normal distribution lies within this many standard deviations: 1 / 1.4826 (computed). */
const MAD_PER_SD = 0.6744898;

/** Standard deviation that a few wild values do not change: median distance from the median, scaled for a normal row. */
export function robustSdOf(values: Values): number {
  const sorted = sortedOf(values);
  const middle = quantileOf(sorted, 0.5);
  return quantileOf(sorted.map((v) => Math.abs(v - middle)).sort(), 0.5) / MAD_PER_SD;
}

/** Largest minus smallest. */
export function peakToPeakOf(values: Values): number {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const v = values[i]!;
    if (v < least) least = v;
    if (v > most) most = v;
  }
  return most - least;
}

/** Pearson's correlation of two rows of the same length; 0 where one does not move. */
export function correlationOf(a: Values, b: Values): number {
  const meanA = meanOf(a);
  const meanB = meanOf(b);
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < a.length; i++) {
    const x = a[i]! - meanA;
    const y = b[i]! - meanB;
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}

/** Slope and intercept of the line of least squares. */
export function lineOf(x: Values, y: Values): { slope: number; at0: number } {
  const meanX = meanOf(x);
  const meanY = meanOf(y);
  let xy = 0;
  let xx = 0;
  for (let i = 0; i < x.length; i++) {
    xy += (x[i]! - meanX) * (y[i]! - meanY);
    xx += (x[i]! - meanX) ** 2;
  }
  const slope = xx > 0 ? xy / xx : 0;
  return { slope, at0: meanY - slope * meanX };
}
