/** Share of the nominal rail by which it may be off; beyond that the reading of the rail itself is doubted. Assumed. */
export const RAIL_TOLERANCE = 0.25;

/**
 * Factor that brings readings to what they would be at the nominal rail: the potentiometers hang on the rail, the
 * converter measures against its own reference.
 * @param nominal reading of the rail pin at the nominal rail, > 0
 * @param measured reading now, mean of as many reads as the fingers' readings
 * @returns nominal / measured; 1 where the rail pin reads nonsense (open, shorted, not a number)
 */
export function railFactor(nominal: number, measured: number): number {
  return measured > nominal * (1 - RAIL_TOLERANCE) && measured < nominal * (1 + RAIL_TOLERANCE)
    ? nominal / measured
    : 1;
}

/** A reading as it would be at the nominal rail. */
export function compensate(reading: number, factor: number): number {
  return reading * factor;
}
