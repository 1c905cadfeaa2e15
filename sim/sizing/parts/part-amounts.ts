import { phalanges } from '../../hand/phalanges.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { SPOOL_DENSITY_KG_PER_M3, SPOOL_WIDTH_MM } from '../../spool/force.ts';
import { stringLength } from '../strings/string-length.ts';
import { strokeMm } from '../strings/stroke.ts';

/** Strings wear: every finger gets a second one. Assumed. */
const STRINGS_A_FINGER = 2;
/** One wire between board and hand, m: 20-30 cm up the hand. Assumed. */
export const WIRE_M = 0.3;
/** Tube is cut with some waste. Assumed. */
const TUBE_WASTE = 1.2;

/** Rim of a spool beyond its groove, mm; holder of spool and potentiometer, guide, plate, g; waste. All assumed. */
const RIM_MM = 2;
const HOLDER_G = 12;
const GUIDE_G = 4;
const PLATE_G = 40;
const PRINT_WASTE = 1.2;

/** String is bought for a hand a tenth larger than the rig's, as it is sized for. */
const LARGER_HAND = 1.1;

/** String to buy for one finger. */
export function stringM(rig: Rig, finger: Finger): number {
  const scale = LARGER_HAND * rig.hand.scale;
  return (STRINGS_A_FINGER * stringLength(finger, strokeMm(rig, finger, scale), scale).cutMm) / 1000;
}

/** Tube to buy for one finger: along its metacarpal, if it has guides at all. */
export function tubeM(rig: Rig, finger: Finger): number {
  if (finger.guides.length === 0) return 0;
  return (TUBE_WASTE * phalanges(finger.name, rig.hand.scale).metacarpalMm) / 1000;
}

/** Filament for the printed parts of one hand, g: solid spools, holders, guides, one plate, and waste. */
export function filamentG(rig: Rig): number {
  let grams = PLATE_G;
  for (const { spoolRadiusMm, guides } of rig.fingers) {
    const discMm3 = Math.PI * (spoolRadiusMm + RIM_MM) ** 2 * SPOOL_WIDTH_MM;
    grams += discMm3 * SPOOL_DENSITY_KG_PER_M3 * 1e-6 + HOLDER_G + GUIDE_G * guides.length;
  }
  return PRINT_WASTE * grams;
}
