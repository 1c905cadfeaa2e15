/** Middle and half-width of the dirty place of a track, share of the travel. */
const PLACE = 0.45;
const HALF = 0.06;

/** How likely a dirty wiper lifts at a place of its travel: only round the dirty one. */
export function liftShare(dirt: number, wiper: number): number {
  const away = Math.abs(wiper - PLACE) / HALF;
  return away < 1 ? dirt * 3 * (1 - away) : 0;
}

/** Noise that dirt adds at a place of the travel, share of the span. */
export function dirtNoise(dirt: number, wiper: number): number {
  const away = Math.abs(wiper - PLACE) / HALF;
  return away < 1 ? dirt * 0.15 * (1 - away) : 0;
}
