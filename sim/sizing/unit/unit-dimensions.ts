import type { Finger, Rig, Strip } from '../../rig/rig.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { strokeMm } from '../strings/stroke.ts';
import { POT_BODY, SCREW, stripOf } from './bought-parts.ts';
import { FREE_MM, LEAST_WALL_MM, SLIDE_MM, WALL_MM } from './print-rules.ts';
import {
  BEHIND_MM,
  type CollarDimensions,
  collarDimensions,
  leastRadiusMm,
  type SpoolDimensions,
  type SpringPlace,
  spoolDimensions,
} from './spool-dimensions.ts';

/** How a unit is built, where the rig leaves a choice. */
export interface UnitChoices {
  springPlace: SpringPlace;
  /** Bore of the spool: D-shaped for a flatted shaft, or round. */
  shaft: 'flat' | 'round';
  /** Width of the spring's strip, mm; the rig's, or 5, if left out. */
  stripWidthMm?: number;
}
export const USUAL_CHOICES: UnitChoices = { springPlace: 'beside', shaft: 'flat' };

/** Foot of a unit, a dovetail that slides in a rail, mm. Its sides lean by 30 deg. */
export interface FootDimensions {
  topHalfMm: number;
  bottomHalfMm: number;
  heightMm: number;
}

/**
 * One sensing unit, mm. The spool stands upright, its axis across the hand; the string leaves it at the foot, to the
 * fingers. Along the axis: cap of the potentiometer, wall, cup with spring and spool, lid.
 */
export interface UnitDimensions {
  strip: Strip;
  spool: SpoolDimensions;
  /** A spool of a smaller radius has no room for shaft, spring and knot. */
  leastRadiusMm: number;
  collar?: CollarDimensions;
  /** Between the potentiometer and the cup. */
  wallMm: number;
  cupRadiusMm: number;
  cupDepthMm: number;
  /** Half the unit's length along the hand, and its radius over the axis. */
  halfMm: number;
  /** Axis above the unit's foot plane. */
  axisMm: number;
  /** Middle of the groove, from the wall into the cup. */
  stringAtMm: number;
  /** Half the height of the hole that the string leaves by. */
  exitHalfMm: number;
  shaftHoleRadiusMm: number;
  lidMm: number;
  lidHoleRadiusMm: number;
  /** Screws of the lid: from the middle, and above the foot plane. */
  lidScrew: { asideMm: number; upMm: number };
  pot: PotCapDimensions;
  foot: FootDimensions;
  /** All along the axis. */
  widthMm: number;
  /** Length to which the potentiometer's shaft may be cut; it never has to be longer than it is. */
  shaftMm: number;
}

/** Cap over the potentiometer, screwed to the wall by two ears, mm. */
export interface PotCapDimensions {
  /** Inner size: along the hand, upwards, along the axis. */
  hollowMm: [number, number, number];
  wallMm: number;
  earMm: number;
  earHeightMm: number;
  /** Half the length over both ears, and the screws in them. */
  earHalfMm: number;
  screwAtMm: number;
  /** Slot in the lower side for the pins' wires. */
  wireSlotMm: number;
}

const TAN_30 = Math.tan(Math.PI / 6);
const FOOT_TOP_HALF_MM = 1.5;
const FOOT_HEIGHT_MM = 2;
/** Wall that a potentiometer is screwed against: the bite of a short screw, and a bed that does not warp. Assumed. */
const POT_WALL_MM = 2;

/**
 * Dimensions of one finger's unit.
 * @param largest size of the largest hand that the spool must serve, 1 = the published mean
 */
export function unitDimensions(
  rig: Rig,
  finger: Finger,
  largest: number,
  choices: UnitChoices,
): UnitDimensions {
  const own = stripOf(finger);
  const strip = choices.stripWidthMm === undefined ? own : narrowed(own, choices.stripWidthMm);
  const { spoolRadiusMm: radiusMm, stringDiameterMm: threadMm } = finger;
  const turns = Math.ceil(spoolTurnDeg(strokeMm(rig, finger, largest), radiusMm, threadMm) / 360);
  const spool = spoolDimensions(radiusMm, threadMm, turns, strip, choices.springPlace, choices.shaft);
  const cupRadiusMm = spool.flangeRadiusMm + FREE_MM;
  const halfMm = cupRadiusMm + WALL_MM;
  const cupDepthMm = BEHIND_MM + spool.heightMm + FREE_MM;
  const exitHalfMm = Math.max(1, threadMm / 2 + 0.7);
  const screwUpMm = LEAST_WALL_MM + SCREW.passRadiusMm;
  const pot = potCap();
  const wallMm = POT_WALL_MM;
  const lidMm = WALL_MM;
  const unit: UnitDimensions = {
    strip,
    spool,
    leastRadiusMm: leastRadiusMm(spool),
    wallMm,
    cupRadiusMm,
    cupDepthMm,
    halfMm,
    // Below the string's hole the lid's screws find a full wall; the cup itself would allow a lower axis.
    axisMm: Math.max(
      radiusMm + exitHalfMm + LEAST_WALL_MM + SCREW.pilotRadiusMm + screwUpMm,
      pot.hollowMm[1] / 2 + pot.wallMm,
    ),
    stringAtMm: cupDepthMm - FREE_MM - spool.flangeMm - spool.floorMm / 2,
    exitHalfMm,
    shaftHoleRadiusMm: POT_BODY.shaftRadiusMm + SLIDE_MM,
    lidMm,
    lidHoleRadiusMm: POT_BODY.shaftRadiusMm + 2 * SLIDE_MM,
    lidScrew: { asideMm: halfMm - screwUpMm, upMm: screwUpMm },
    pot,
    foot: {
      topHalfMm: FOOT_TOP_HALF_MM,
      bottomHalfMm: FOOT_TOP_HALF_MM + FOOT_HEIGHT_MM * TAN_30,
      heightMm: FOOT_HEIGHT_MM,
    },
    widthMm: pot.hollowMm[2] + pot.wallMm + wallMm + cupDepthMm + lidMm,
    shaftMm: Math.min(POT_BODY.shaftMm, wallMm + cupDepthMm + lidMm),
  };
  if (choices.springPlace === 'inside') unit.collar = collarDimensions(spool, strip);
  return unit;
}

function potCap(): PotCapDimensions {
  const { widthMm, lengthMm, depthMm } = POT_BODY;
  const wallMm = LEAST_WALL_MM;
  const screwAtMm = widthMm / 2 + SLIDE_MM + wallMm + SCREW.passRadiusMm + wallMm;
  return {
    hollowMm: [widthMm + 2 * SLIDE_MM, lengthMm + 2 * SLIDE_MM, depthMm + SLIDE_MM],
    wallMm,
    earMm: WALL_MM,
    earHeightMm: 2 * (SCREW.passRadiusMm + LEAST_WALL_MM + 0.4),
    earHalfMm: screwAtMm + SCREW.passRadiusMm + LEAST_WALL_MM + 0.2,
    screwAtMm,
    wireSlotMm: widthMm - 2,
  };
}

/** A narrower strip of the same torque is shorter in proportion (torque grows with width, falls with length). */
function narrowed(strip: Strip, widthMm: number): Strip {
  return { ...strip, widthMm, lengthMm: (strip.lengthMm * widthMm) / strip.widthMm };
}
