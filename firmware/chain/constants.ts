// Host only: turns settings in Hz, seconds and % of closure into the numbers that the board's stages use.

/**
 * Gain of the exponential average with its −3 dB point exactly at the cut-off.
 * @param cutoffHz > 0; at or above half the frame rate the filter lets everything through (gain 1)
 * @param periodS frame period, s
 * Source: computed; |H|² = 1/2 of y += a(x − y) solved for a.
 */
export function exponentialGain(cutoffHz: number, periodS: number): number {
  if (cutoffHz * periodS >= 0.5) return 1;
  const b = 1 - Math.cos(2 * Math.PI * cutoffHz * periodS);
  return -b + Math.sqrt(b * b + 2 * b);
}

/**
 * Gain w / (1 + w), w = 2π·cutoff·period: the backward-difference form that the one euro filter uses.
 * Source: Casiez, Roussel, Vogel 2012 (their 1 / (1 + tau / Te)).
 */
export function smoothingGain(cutoffHz: number, periodS: number): number {
  const w = 2 * Math.PI * cutoffHz * periodS;
  return w / (1 + w);
}

/** 1 + 2π·cutoff·period: what the adaptive and the one euro stage divide by when nothing moves. */
export function restBase(cutoffHz: number, periodS: number): number {
  return 1 + 2 * Math.PI * cutoffHz * periodS;
}

/** Step, as a share of full closure, at which the adaptive stage's cut-off has risen by `riseHz`. */
export const RISE_STEP = 0.1;

/**
 * Rise of the adaptive stage per square of a reading unit.
 * @param riseHz cut-off added at a step of 10 % of full closure
 * @param span distance of the captured ends in the same unit as the step
 */
export function adaptiveRise(riseHz: number, periodS: number, span: number): number {
  const step = RISE_STEP * span;
  return (2 * Math.PI * riseHz * periodS) / (step * step);
}

/**
 * Rise of the one euro stage per reading unit a second.
 * @param beta cut-off added per closure a second, Hz
 */
export function oneEuroRise(beta: number, periodS: number, span: number): number {
  return (2 * Math.PI * beta * periodS) / span;
}

/** % of full closure as reading units. */
export function pctToReading(pct: number, span: number): number {
  return (pct / 100) * span;
}
