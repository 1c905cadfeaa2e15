import { loadingError, sourceOhm } from './divider.ts';

/**
 * Wiper position at which the pin sees the highest resistance: where both arms of the divider are equal, or the
 * end of the track nearest to that.
 * @returns 0-1
 */
export function highestSourceAt(potOhm: number, topOhm: number, bottomOhm: number): number {
  const x = ((topOhm + potOhm + bottomOhm) / 2 - bottomOhm) / potOhm;
  return x > 0 ? (x < 1 ? x : 1) : 0;
}

/** The resistance there, ohm. */
export function highestSourceOhm(
  potOhm: number,
  topOhm: number,
  bottomOhm: number,
  pullDownOhm: number,
): number {
  return sourceOhm(highestSourceAt(potOhm, topOhm, bottomOhm), potOhm, topOhm, bottomOhm, pullDownOhm);
}

/** Steps of the travel that are looked at. */
const STEPS = 1000;

/**
 * Where a load from the pin to ground makes the reading most too low, in a potentiometer between two resistors: it
 * is a stretch of one long potentiometer that carries the same load.
 * @param loadOhm > 0
 * @returns wiper position 0-1, and the error as a share of the supply
 */
export function worstLoading(
  potOhm: number,
  topOhm: number,
  bottomOhm: number,
  loadOhm: number,
): { at: number; share: number } {
  const totalOhm = topOhm + potOhm + bottomOhm;
  const worst = { at: 0, share: 0 };
  for (let i = 0; i <= STEPS; i++) {
    const x = i / STEPS;
    const share = loadingError((bottomOhm + x * potOhm) / totalOhm, totalOhm, loadOhm);
    if (share > worst.share) {
      worst.at = x;
      worst.share = share;
    }
  }
  return worst;
}
