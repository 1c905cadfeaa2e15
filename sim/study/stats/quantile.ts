/** Arrays that can be reordered in place. */
export type NumberArray = Float64Array | Float32Array;

/**
 * k-th smallest of the first `length` values; reorders them so that none before index k is larger and none
 * after it is smaller. Mean cost proportional to `length`, no allocation.
 * @param k 0 = the smallest; integer, 0 <= k < length
 * @throws RangeError when k is outside. NaN among the values is not looked for and makes the result useless.
 * Source: Hoare's selection with the median of three as pivot.
 */
export function selectInPlace(values: NumberArray, k: number, length: number): number {
  if (!(k >= 0 && k < length && length <= values.length)) {
    throw new RangeError(
      `select: position ${k} of ${length} values (array of ${values.length}); expected 0 <= position < count`,
    );
  }
  let low = 0;
  let high = length - 1;
  while (low < high) {
    const pivot = middleOf(values[low], values[(low + high) >> 1], values[high]);
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i <= j) {
        const swap = values[i];
        values[i] = values[j];
        values[j] = swap;
        i++;
        j--;
      }
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return values[k];
  }
  return values[k];
}

function middleOf(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

/**
 * Quantile by linear interpolation between order statistics at (length − 1)·share: definition 7 of Hyndman
 * and Fan (Am. Stat. 50 (1996) 361), the default of NumPy and R. Reorders the values.
 * @param share 0 = minimum, 0.5 = median, 1 = maximum
 * @param length how many values from the start of the array count, >= 1
 * @throws RangeError for a share outside 0-1 or no values
 */
export function quantileInPlace(values: NumberArray, share: number, length: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`quantile: share ${share}; expected 0 to 1`);
  const position = (length - 1) * share;
  const below = Math.floor(position);
  const lower = selectInPlace(values, below, length);
  if (position === below) return lower;
  // After the selection the next order statistic is the smallest of what lies behind.
  let upper = Number.POSITIVE_INFINITY;
  for (let i = below + 1; i < length; i++) if (values[i] < upper) upper = values[i];
  return lower + (upper - lower) * (position - below);
}

/** Like `quantileInPlace` over all values, on a copy; NaN if any value is NaN. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const copy = Float64Array.from(values);
  for (let i = 0; i < copy.length; i++) if (Number.isNaN(copy[i])) return Number.NaN;
  return quantileInPlace(copy, share, copy.length);
}
