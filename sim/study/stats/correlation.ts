/**
 * Correlation of neighbouring samples about their common mean: Σ(x[i]−m)(x[i+1]−m) / Σ(x[i]−m)².
 * @param values evenly spaced samples
 * @param from first sample used
 * @param to one past the last sample used; at least from + 2
 * @returns -1 to 1; NaN when the samples do not vary
 */
export function lag1Correlation(values: ArrayLike<number>, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i];
  const mean = sum / (to - from);
  let squares = 0;
  let products = 0;
  let previous = 0;
  for (let i = from; i < to; i++) {
    const x = values[i] - mean;
    squares += x * x;
    products += x * previous;
    previous = x;
  }
  return products / squares;
}

/**
 * Correlation coefficient of truth[from..to) with output[from + shift..to + shift).
 * @returns -1 to 1; NaN when either stretch does not vary
 */
export function correlationAt(
  truth: ArrayLike<number>,
  output: ArrayLike<number>,
  from: number,
  to: number,
  shift: number,
): number {
  // Sums about the first sample of each: the plain sums of squares would cancel for small motion far from 0.
  const t0 = truth[from];
  const o0 = output[from + shift];
  const count = to - from;
  let t1 = 0;
  let t2 = 0;
  let o1 = 0;
  let o2 = 0;
  let cross = 0;
  for (let i = from; i < to; i++) {
    const t = truth[i] - t0;
    const o = output[i + shift] - o0;
    t1 += t;
    t2 += t * t;
    o1 += o;
    o2 += o * o;
    cross += t * o;
  }
  return (cross - (t1 * o1) / count) / Math.sqrt((t2 - (t1 * t1) / count) * (o2 - (o1 * o1) / count));
}

/**
 * Delay of `output` behind `truth`: the shift of the highest correlation, refined to a fraction of a sample
 * by the parabola through it and its two neighbours.
 * @param from first sample of truth used, >= 1
 * @param to one past the last; to + maxShift + 1 must not pass the end of `output`
 * @param maxShift largest delay looked for, samples, >= 0
 * @returns samples, at least -0.5 and at most maxShift + 0.5; NaN when either signal does not vary. A result
 * near maxShift means that the true delay may be larger.
 * @throws RangeError when the stretch does not fit into the arrays
 */
export function lagByCrossCorrelation(
  truth: ArrayLike<number>,
  output: ArrayLike<number>,
  from: number,
  to: number,
  maxShift: number,
): number {
  if (!(from >= 1 && to > from + 1 && to <= truth.length && to + maxShift + 1 <= output.length)) {
    throw new RangeError(
      `lag: samples ${from} to ${to} with shifts to ${maxShift} of ${truth.length} and ${output.length} samples; ` +
        'expected from >= 1 and to + maxShift + 1 within the output',
    );
  }
  let before = correlationAt(truth, output, from, to, -1);
  let here = correlationAt(truth, output, from, to, 0);
  let best = -2;
  let lag = Number.NaN;
  for (let shift = 0; shift <= maxShift; shift++) {
    const after = correlationAt(truth, output, from, to, shift + 1);
    if (here > best) {
      best = here;
      const bend = before - 2 * here + after;
      const move = bend < 0 ? (0.5 * (before - after)) / bend : 0;
      lag = shift + Math.max(-0.5, Math.min(0.5, move));
    }
    before = here;
    here = after;
  }
  return lag;
}
