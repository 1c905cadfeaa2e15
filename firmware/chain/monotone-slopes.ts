// Host only: slopes that make a cubic through monotone points monotone.

/**
 * Slopes at the knots of a piecewise cubic Hermite curve that never overshoots its knots; with two knots the
 * curve is a straight line.
 * @param knots strictly rising, at least 2
 * @param values same length
 * Source: Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238, with the weighted harmonic mean of Fritsch
 * and Butland (1984) inside and the three-point formula that SciPy's PchipInterpolator uses at the ends.
 */
export function monotoneSlopes(knots: number[], values: number[]): number[] {
  const last = knots.length - 1;
  const width: number[] = [];
  const secant: number[] = [];
  for (let i = 0; i < last; i++) {
    width.push(knots[i + 1] - knots[i]);
    secant.push((values[i + 1] - values[i]) / width[i]);
  }
  if (last === 1) return [secant[0], secant[0]];
  const slopes: number[] = [endSlope(width[0], width[1], secant[0], secant[1])];
  for (let i = 1; i < last; i++) slopes.push(innerSlope(width[i - 1], width[i], secant[i - 1], secant[i]));
  slopes.push(endSlope(width[last - 1], width[last - 2], secant[last - 1], secant[last - 2]));
  return slopes;
}

/** Weighted harmonic mean of the secants on both sides; flat at a turning point or beside a level stretch. */
function innerSlope(before: number, after: number, secantBefore: number, secantAfter: number): number {
  if (secantBefore * secantAfter <= 0) return 0;
  const w1 = 2 * after + before;
  const w2 = after + 2 * before;
  return (w1 + w2) / (w1 / secantBefore + w2 / secantAfter);
}

/**
 * Slope of the parabola through three points, kept to the sign of the end secant. The rule's second limit,
 * three times that secant, cannot be reached by monotone values: the parabola stays below twice.
 */
function endSlope(near: number, far: number, secantNear: number, secantFar: number): number {
  const slope = ((2 * near + far) * secantNear - near * secantFar) / (near + far);
  return slope * secantNear <= 0 ? 0 : slope;
}
