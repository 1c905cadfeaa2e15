import type { FingerName } from '../rig/rig.ts';

/** Bone lengths of one finger, mm; the soft tip is the flesh beyond the last bone. */
export interface Phalanges {
  metacarpalMm: number;
  proximalMm: number;
  /** 0 for the thumb, which has no middle phalanx. */
  middleMm: number;
  distalMm: number;
  softTipMm: number;
}

/**
 * Mean adult bone lengths at scale 1.
 * Source: Buryanov & Kotiuk 2010, Int J Morphol 28:755, table I, taken from a second-hand transcription; the
 * paper itself was not opened.
 */
export const PHALANGES: Readonly<Record<FingerName, Readonly<Phalanges>>> = {
  thumb: { metacarpalMm: 46.22, proximalMm: 31.57, middleMm: 0, distalMm: 21.67, softTipMm: 5.67 },
  index: { metacarpalMm: 68.12, proximalMm: 39.78, middleMm: 22.38, distalMm: 15.82, softTipMm: 3.84 },
  middle: { metacarpalMm: 64.6, proximalMm: 44.63, middleMm: 26.33, distalMm: 17.4, softTipMm: 3.95 },
  ring: { metacarpalMm: 58.0, proximalMm: 41.37, middleMm: 25.65, distalMm: 17.3, softTipMm: 3.95 },
  little: { metacarpalMm: 53.69, proximalMm: 32.74, middleMm: 18.11, distalMm: 15.96, softTipMm: 3.73 },
};

/**
 * Bone lengths of a finger on a hand of another size.
 * @param scale 1 = the published mean hand; 0.8-1.2 covers adults (assumed); all bones grow alike (assumed)
 */
export function phalanges(finger: FingerName, scale: number): Phalanges {
  const mean = PHALANGES[finger];
  return {
    metacarpalMm: mean.metacarpalMm * scale,
    proximalMm: mean.proximalMm * scale,
    middleMm: mean.middleMm * scale,
    distalMm: mean.distalMm * scale,
    softTipMm: mean.softTipMm * scale,
  };
}

/** Length from the knuckle (MCP joint) to the end of the flesh with the finger straight, mm. */
export function fingerLengthMm(finger: FingerName, scale: number): number {
  const mean = PHALANGES[finger];
  return scale * (mean.proximalMm + mean.middleMm + mean.distalMm + mean.softTipMm);
}
