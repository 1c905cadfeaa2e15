// Host only: the limits of the wiper checks, from the wiring and from how fast a finger can be.

/** Fastest full closing of a finger, s. Assumed; the same figure as in the study of slack strings. */
export const FASTEST_CLOSING_S = 0.09;

/** Peak speed of a minimum-jerk movement over its mean speed. Flash and Hogan 1985; computed from their polynomial. */
const PEAK_OVER_MEAN = 1.875;

export interface WiperLimits {
  /** Readings below this come from no wiper; 0 = the wiring cannot tell. */
  openBelow: number;
  /** Largest change of a reading in one frame. */
  largestStep: number;
}

/**
 * @param leastReading lowest reading with the wiper in place, at all tolerances; 0 without a resistor to ground
 * @param span distance of the captured ends, in the same unit; either sign
 * @param periodS frame period, s
 */
export function wiperLimits(leastReading: number, span: number, periodS: number): WiperLimits {
  return {
    openBelow: leastReading / 2,
    largestStep: (Math.abs(span) * PEAK_OVER_MEAN * periodS) / FASTEST_CLOSING_S,
  };
}
