import { WIRE } from './bought-parts.ts';
import { LEAST_WALL_MM, SLIDE_MM, WALL_MM } from './print-rules.ts';
import type { UnitDimensions } from './unit-dimensions.ts';

/** Channel for the wires behind the units, open at the top between two lips, mm. */
export interface ChannelDimensions {
  lengthMm: number;
  innerWidthMm: number;
  /** Height of the full width; lips close in at 45 deg above it, to the gap. */
  innerHeightMm: number;
  gapMm: number;
  lipMm: number;
  wallMm: number;
  floorMm: number;
  widthMm: number;
  heightMm: number;
  studHoleRadiusMm: number;
}

/** Piece that closes the rails behind the last unit, mm. */
export interface KeyDimensions {
  lengthMm: number;
  topHalfMm: number;
  bottomHalfMm: number;
  heightMm: number;
}

/**
 * Plate on the back of the hand, mm; x across the hand from the open end of the rails, y to the fingers from the
 * units' axis. Two rails take the units' feet; a strap passes between the rails, under the units.
 */
export interface PlateDimensions {
  baseMm: number;
  /** Across the hand. */
  widthMm: number;
  frontMm: number;
  rearMm: number;
  cornerMm: number;
  /** Middle of either rail from the axis. */
  railAtMm: number;
  railHalfMm: number;
  railHeightMm: number;
  grooveTopHalfMm: number;
  grooveBottomHalfMm: number;
  /** Wall at the closed end of the rails. */
  endMm: number;
  /** Left side of each unit, in the order of the units. */
  unitsAtMm: number[];
  strapMm: number;
  /** Openings under the units: lighter, and for sweat. */
  vent: { widthMm: number; lengthMm: number; atMm: number[] };
  channelAtMm: number;
  stud: { radiusMm: number; heightMm: number; atMm: number[] };
  channel: ChannelDimensions;
  key: KeyDimensions;
}

/** Between neighbours. */
const UNIT_GAP_MM = 0.4;
const KEY_MM = 4;
const KEY_PLAY_MM = 0.1;
const MARGIN_MM = 3;
const VENT_MM = 6;
const TAN_30 = Math.tan(Math.PI / 6);

/** @param units in their order across the hand, left to right seen from the wrist */
export function plateDimensions(units: readonly UnitDimensions[]): PlateDimensions {
  const { foot } = units[0]!;
  const leastHalfMm = Math.min(...units.map((unit) => unit.halfMm));
  const mostHalfMm = Math.max(...units.map((unit) => unit.halfMm));
  const railHeightMm = foot.heightMm + SLIDE_MM;
  const grooveTopHalfMm = foot.topHalfMm + SLIDE_MM;
  const grooveBottomHalfMm = grooveTopHalfMm + railHeightMm * TAN_30;
  const railHalfMm = grooveBottomHalfMm + LEAST_WALL_MM;
  const railAtMm = leastHalfMm - foot.bottomHalfMm;
  const unitsAtMm: number[] = [];
  let at = KEY_MM + UNIT_GAP_MM;
  for (const unit of units) {
    unitsAtMm.push(at);
    at += unit.widthMm + UNIT_GAP_MM;
  }
  const widthMm = at + WALL_MM;
  const channel = channelDimensions(units.length, widthMm);
  const channelAtMm = -Math.max(mostHalfMm, railAtMm + railHalfMm) - UNIT_GAP_MM - channel.widthMm;
  const strapMm = 2 * (railAtMm - railHalfMm) - 1;
  const studs = Math.max(2, Math.round(widthMm / 40));
  return {
    baseMm: WALL_MM,
    widthMm,
    frontMm: railAtMm + railHalfMm + MARGIN_MM,
    rearMm: channelAtMm,
    cornerMm: MARGIN_MM,
    railAtMm,
    railHalfMm,
    railHeightMm,
    grooveTopHalfMm,
    grooveBottomHalfMm,
    endMm: WALL_MM,
    unitsAtMm,
    strapMm,
    vent: {
      widthMm: VENT_MM,
      lengthMm: Math.max(VENT_MM, strapMm - 2 * MARGIN_MM),
      atMm: units.map((unit, i) => unitsAtMm[i]! + unit.widthMm / 2),
    },
    channelAtMm,
    stud: {
      radiusMm: 1.5,
      heightMm: channel.floorMm,
      atMm: Array.from({ length: studs }, (_, i) => (widthMm * (i + 0.5)) / studs),
    },
    channel,
    key: {
      lengthMm: KEY_MM,
      topHalfMm: grooveTopHalfMm - KEY_PLAY_MM,
      bottomHalfMm: grooveBottomHalfMm - KEY_PLAY_MM,
      heightMm: railHeightMm - KEY_PLAY_MM,
    },
  };
}

/** Supply, ground and one wiper for each unit. */
function channelDimensions(units: number, lengthMm: number): ChannelDimensions {
  const areaMm2 = ((units + 2) * Math.PI * WIRE.diameterMm ** 2) / 4 / WIRE.fill;
  const innerWidthMm = 6;
  const innerHeightMm = Math.max(2, areaMm2 / innerWidthMm);
  const gapMm = 2;
  const lipMm = LEAST_WALL_MM;
  return {
    lengthMm,
    innerWidthMm,
    innerHeightMm,
    gapMm,
    lipMm,
    wallMm: LEAST_WALL_MM,
    floorMm: WALL_MM,
    widthMm: innerWidthMm + 2 * LEAST_WALL_MM,
    heightMm: WALL_MM + innerHeightMm + (innerWidthMm - gapMm) / 2 + lipMm,
    studHoleRadiusMm: 1.5 + SLIDE_MM,
  };
}
