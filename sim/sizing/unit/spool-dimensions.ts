import type { Strip } from '../../rig/rig.ts';
import { FLANGE_MM, SAFETY_TURNS, singleGrooveWidthMm } from '../../spool/groove.ts';
import { POT_BODY } from './bought-parts.ts';
import { FREE_MM, LEAST_WALL_MM, PUSH_MM, SLIDE_MM, WALL_MM } from './print-rules.ts';

/** Where the return spring lies: on the hub beside the spool, or in a hollow of the spool round a fixed collar. */
export type SpringPlace = 'beside' | 'inside';

/** One spool, mm. Heights count along the axis from the face at the lid, which is printed on the bed. */
export interface SpoolDimensions {
  springPlace: SpringPlace;
  /** Where the string leaves the full spool, to the string's middle. */
  radiusMm: number;
  /** Bottom of the groove: all turns lie on it in one spiral. */
  coreRadiusMm: number;
  flangeRadiusMm: number;
  flangeMm: number;
  /** Width of the groove's bottom; its far side rises at 45 deg, so that it prints without support. */
  floorMm: number;
  /** Both flanges and the groove. */
  discMm: number;
  /** From the face to the end of the hub. */
  heightMm: number;
  boreRadiusMm: number;
  /** From the axis to the flat of a D-shaped bore; none for a round one. */
  boreFlatMm?: number;
  hubRadiusMm: number;
  /** Face of the hollow's floor, and its radius; only with the spring inside. */
  hollow?: { floorMm: number; radiusMm: number };
  /** Slot of the strip's inner end: in the hub when it lies beside. */
  slotMm: number;
  slotDepthMm: number;
  /** Two ribs hold the strip's outer end between them. */
  ribMm: number;
  /** Where the knot lies, in the face at the lid; a slot leads to it through the flange. */
  knot: { atMm: number; radiusMm: number; depthMm: number; slotMm: number };
}

/** Fixed collar that the spring is wound on inside the spool. */
export interface CollarDimensions {
  innerRadiusMm: number;
  outerRadiusMm: number;
  heightMm: number;
}

/** Lip of the flanges above the string. Assumed. */
const LIP_MM = 1.5;
/** Slot for a bent end of the strip. Assumed. */
const SLOT_MM = 0.8;
/** Play of the strip along the axis. Assumed. */
const STRIP_PLAY_MM = 0.6;
/** Gap between the spool and the wall behind it. Assumed. */
export const BEHIND_MM = 0.4;
const KNOT_RADIUS_MM = 1.5;

/**
 * @param turns that the largest hand draws off, rounded up to whole ones
 * @param shaft `flat` for a D-shaped bore
 */
export function spoolDimensions(
  radiusMm: number,
  stringDiameterMm: number,
  turns: number,
  strip: Strip,
  springPlace: SpringPlace,
  shaft: 'flat' | 'round',
): SpoolDimensions {
  const flangeMm = Math.max(FLANGE_MM, LEAST_WALL_MM);
  const floorMm = singleGrooveWidthMm(stringDiameterMm);
  const coreRadiusMm = radiusMm - stringDiameterMm * (turns + SAFETY_TURNS + 0.5);
  const flangeRadiusMm = radiusMm + stringDiameterMm / 2 + LIP_MM;
  const discMm = 2 * flangeMm + floorMm + (flangeRadiusMm - coreRadiusMm);
  const boreRadiusMm = POT_BODY.shaftRadiusMm + PUSH_MM;
  const roomMm = springRoomMm(strip);
  const isInside = springPlace === 'inside';
  const floorOfHollowMm = 2 * LEAST_WALL_MM;
  const dimensions: SpoolDimensions = {
    springPlace,
    radiusMm,
    coreRadiusMm,
    flangeRadiusMm,
    flangeMm,
    floorMm,
    discMm,
    heightMm: isInside ? Math.max(discMm, floorOfHollowMm + roomMm) : discMm + roomMm - BEHIND_MM,
    boreRadiusMm,
    hubRadiusMm: boreRadiusMm + (isInside ? WALL_MM : WALL_MM + LEAST_WALL_MM),
    slotMm: SLOT_MM,
    slotDepthMm: WALL_MM,
    ribMm: LEAST_WALL_MM,
    knot: {
      atMm: coreRadiusMm - LEAST_WALL_MM - KNOT_RADIUS_MM,
      radiusMm: KNOT_RADIUS_MM,
      depthMm: flangeMm,
      slotMm: Math.max(1.2, stringDiameterMm + 0.6),
    },
  };
  if (shaft === 'flat') dimensions.boreFlatMm = POT_BODY.flatMm + PUSH_MM;
  if (isInside) dimensions.hollow = { floorMm: floorOfHollowMm, radiusMm: coreRadiusMm - WALL_MM };
  return dimensions;
}

/** Room of the strip along the axis. */
export function springRoomMm(strip: Strip): number {
  return strip.widthMm + STRIP_PLAY_MM;
}

/** The collar that reaches from the wall into a hollow spool, round its hub. */
export function collarDimensions(spool: SpoolDimensions, strip: Strip): CollarDimensions {
  const innerRadiusMm = spool.hubRadiusMm + FREE_MM;
  return {
    innerRadiusMm,
    outerRadiusMm: innerRadiusMm + WALL_MM,
    heightMm: BEHIND_MM + strip.widthMm,
  };
}

/** Room for the coils between what the strip is wound on and what it leans against; the ribs take their part. */
export function coilRoom(spool: SpoolDimensions, cupRadiusMm: number): { barrelMm: number; arborMm: number } {
  if (spool.hollow) {
    return {
      barrelMm: spool.hollow.radiusMm - spool.ribMm,
      arborMm: spool.hubRadiusMm + FREE_MM + WALL_MM,
    };
  }
  return { barrelMm: cupRadiusMm - spool.ribMm, arborMm: spool.hubRadiusMm };
}

/** Smallest string radius that leaves the knot and, inside, a first coil their place. */
export function leastRadiusMm(spool: SpoolDimensions): number {
  const belowMm = spool.radiusMm - spool.coreRadiusMm;
  const knotMm = spool.boreRadiusMm + LEAST_WALL_MM + 2 * KNOT_RADIUS_MM + LEAST_WALL_MM;
  if (!spool.hollow) return belowMm + Math.max(knotMm, spool.hubRadiusMm + LEAST_WALL_MM);
  const coilMm = spool.hubRadiusMm + FREE_MM + WALL_MM + SLIDE_MM + spool.ribMm + WALL_MM;
  return belowMm + Math.max(knotMm, coilMm);
}
