import type { Program } from './program.ts';

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

/** Factor of this frame, from the rail's own readings; 1 without a rail pin. */
export function railFactorNow(p: Program): number {
  if (p.build.railNominal > 0) return railFactor(p.build.railNominal, p.io.railSum() / p.build.oversampling);
  return 1;
}
