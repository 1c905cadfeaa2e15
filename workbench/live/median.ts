/** The middle value, or the mean of the middle two; NaN of nothing. Leaves the values as they are. */
export function median(values: Float64Array): number {
  const sorted = values.slice().sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
