/**
 * Voltage share of a carbon track that is not even: a bow and an S-bend, both zero at the ends.
 * @param x wiper position, 0-1
 * @param bow departure at mid travel as a share of the supply
 * @param sBend factor of x (1-x) (1-2x), a share of the supply
 * @returns 0-1. The shape is assumed; measured tracks also carry finer waves.
 */
export function bowed(x: number, bow: number, sBend: number): number {
  const y = x + x * (1 - x) * (4 * bow + sBend * (1 - 2 * x));
  return y > 0 ? (y < 1 ? y : 1) : 0;
}

/**
 * Independent linearity of a bend: the largest departure from the straight line that makes this departure
 * smallest (makers' glossaries; which best line they mean is not always said: assumed). A bow alone has half its
 * height, an S-bend alone a sixteenth of its factor (Chebyshev).
 * @returns share of the supply, >= 0
 */
export function independentLinearity(bow: number, sBend: number): number {
  // The departure is convex in the line's slope: search it by thirds. The slope lies within the curve's slopes.
  let low = -4 * Math.abs(bow) - Math.abs(sBend);
  let high = -low;
  for (let i = 0; i < 90; i += 1) {
    const third = (high - low) / 3;
    if (halfSpan(bow, sBend, low + third) < halfSpan(bow, sBend, high - third)) high -= third;
    else low += third;
  }
  return halfSpan(bow, sBend, (low + high) / 2);
}

/**
 * Bow and S-bend with exactly this independent linearity. For setting up a scenario, not for the inner loop.
 * @param linearity share of the supply, 0.02 = 2 %; up to 0.05 the track stays monotone
 * @param mix one draw in -1..1: 0 bow up, 0.5 S-bend, +-1 bow down, -0.5 the other S-bend
 * @returns [bow, sBend] for `bowed`
 */
export function bendOfLinearity(linearity: number, mix: number): [number, number] {
  const bow = 2 * Math.cos(Math.PI * mix);
  const sBend = 16 * Math.sin(Math.PI * mix);
  const scale = linearity / independentLinearity(bow, sBend);
  return [bow * scale, sBend * scale];
}

/** Half the span of the bend minus a line of this slope: the departure from the best line of that slope. */
function halfSpan(bow: number, sBend: number, slope: number): number {
  let most = Math.max(0, -slope);
  let least = Math.min(0, -slope);
  // Departure (4b + s) x - (4b + 3s) x^2 + 2 s x^3 - slope x: extremes at the roots of its derivative.
  const a = 6 * sBend;
  const b = -2 * (4 * bow + 3 * sBend);
  const c = 4 * bow + sBend - slope;
  // Without real roots the curve is monotone; the point then looked at lies between its ends and does no harm.
  const root = Math.sqrt(Math.max(0, b * b - 4 * a * c));
  const q = -(b + (b < 0 ? -root : root)) / 2;
  for (const x of [q / a, c / q]) {
    if (!(x > 0 && x < 1)) continue;
    const y = x * (c + x * (b / 2 + (x * a) / 3));
    most = Math.max(most, y);
    least = Math.min(least, y);
  }
  return (most - least) / 2;
}
