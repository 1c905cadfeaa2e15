/**
 * The Preisach model with even weight over all relays that switch up at a and down at b, -1 <= b <= a <= 1, on a
 * grid. A reference to judge simpler hysteresis by; far too slow for the inner loop.
 */

/** All relays down (the state after a large negative input). @param size relays along one side of the grid */
export function preisachRelays(size: number): Int8Array {
  return new Int8Array((size * (size + 1)) / 2).fill(-1);
}

/**
 * One step.
 * @param relays from `preisachRelays`, updated in place
 * @param size the same size as given there
 * @returns -1 (all down) to 1 (all up)
 */
export function preisach(relays: Int8Array, size: number, input: number): number {
  let sum = 0;
  let k = 0;
  for (let i = 0; i < size; i += 1) {
    const up = (2 * i + 1) / size - 1;
    for (let j = 0; j <= i; j += 1) {
      const down = (2 * j + 1) / size - 1;
      if (input >= up) relays[k] = 1;
      else if (input < down) relays[k] = -1;
      // Cells on the diagonal lie half outside the triangle.
      sum += i === j ? 0.5 * relays[k] : relays[k];
      k += 1;
    }
  }
  return (2 * sum) / (size * size);
}
