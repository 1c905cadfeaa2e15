/**
 * Spool radius that spends a share of the potentiometer's electrical travel on the whole stroke.
 * @param strokeMm string drawn by the largest hand
 * @param share 0.8 leaves a tenth of the travel at both ends (assumed)
 */
export function spoolRadiusMm(strokeMm: number, electricalTravelDeg: number, share: number): number {
  return (180 * strokeMm) / (Math.PI * share * electricalTravelDeg);
}

/** Share of the electrical travel that the stroke uses on this spool; > 1 hits the end of the travel. */
export function travelShare(strokeMm: number, radiusMm: number, electricalTravelDeg: number): number {
  return (180 * strokeMm) / (Math.PI * radiusMm * electricalTravelDeg);
}

/** Largest share of the travel that leaves 5 % free at each end (assumed). */
export const MOST_TRAVEL_SHARE = 0.9;
/** Share that a new spool is made for: a tenth is left at both ends (assumed). */
export const GOOD_TRAVEL_SHARE = 0.8;

/**
 * Verdict on a travel share: 'end stop' beyond the whole travel, 'tight' when less than 5 % is free at each end
 * (assumed), else 'ok'.
 */
export function travelVerdict(share: number): 'ok' | 'tight' | 'end stop' {
  return share > 1 ? 'end stop' : share > MOST_TRAVEL_SHARE ? 'tight' : 'ok';
}
