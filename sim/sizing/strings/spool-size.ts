import { nominalEnds } from '../../board/nominal-readings.ts';
import { TRAVEL_TOLERANCE_DEG } from '../../pot/tolerance.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { SPOOL_WIDTH_MM } from '../../spool/force.ts';
import {
  FLANGE_MM,
  helixTurnMm,
  layersIn,
  oneLayerWidthMm,
  SAFETY_TURNS,
  singleGrooveWidthMm,
} from '../../spool/groove.ts';
import { GOOD_TRAVEL_SHARE, MOST_TRAVEL_SHARE, spoolRadiusMm, travelShare } from '../../spool/radius.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { fullExcursionMm } from '../../string/excursion.ts';
import type { Margin } from '../margin.ts';
import { spoolMargins } from './spool-margins.ts';
import { type StringLength, stringLength } from './string-length.ts';
import { strokeMm } from './stroke.ts';

/** What a finger's spool comes to. Pairs are for the smallest and the largest hand. */
export interface SpoolSize {
  radiusMm: number;
  strokesMm: [number, number];
  /** Turn of the spool over the stroke; its radius falls as string leaves it. */
  turnsDeg: [number, number];
  /** Share of the electrical travel that the largest hand uses, nominal and without the winding's growth. */
  travelShare: number;
  /** The same with a potentiometer of the shortest travel and with the growth. */
  worstShare: number;
  /** Smallest radius, up to 0.1 mm, that leaves a tenth of the travel at both ends, and 5 % at the worst. */
  proposedRadiusMm: number;
  /** Share of the closing hand's stroke over which nothing moves at either end, worst part, stroke in the middle. */
  deadShare: number;
  /** Whether the shaft meets its end stop before the finger is closed, worst part. */
  isStopped: boolean;
  /** Counts of a 12-bit reading between open and closed. */
  counts: [number, number];
  countsPerDeg: number;
  mmPerCount: number;
  /** What the turns on the spool ask for; the turn grows by this share over the stroke when they lie on each other. */
  turnsOnSpool: number;
  oneGrooveGrowth: number;
  /** The same for turns side by side: what the helix takes. */
  sideBySideGrowth: number;
  oneGrooveWidthMm: number;
  oneLayerWidthMm: number;
  /** Room between the flanges of a spool of the usual width, and layers that the turns need in it. */
  roomMm: number;
  layers: number;
  string: StringLength;
  margins: Margin[];
}

/** @param hands size of the smallest and the largest hand, 1 = the published mean */
export function sizeSpool(rig: Rig, finger: Finger, hands: readonly [number, number]): SpoolSize {
  const { potentiometer: pot, spoolRadiusMm: radiusMm, stringDiameterMm: threadMm } = finger;
  const strokesMm: [number, number] = [strokeMm(rig, finger, hands[0]), strokeMm(rig, finger, hands[1])];
  const [, largestMm] = strokesMm;
  const turnDeg = (mm: number) => spoolTurnDeg(mm, radiusMm, threadMm);
  const shortest = 1 - TRAVEL_TOLERANCE_DEG / pot.mechanicalTravelDeg;
  const worstDeg = pot.electricalTravelDeg * shortest;
  const worstShare = turnDeg(largestMm) / worstDeg;
  const counts: [number, number] = [countsOf(rig, finger, strokesMm[0]), countsOf(rig, finger, largestMm)];
  const turnsOnSpool = largestMm / (2 * Math.PI * radiusMm) + SAFETY_TURNS;
  const roomMm = SPOOL_WIDTH_MM - 2 * FLANGE_MM;
  const size: SpoolSize = {
    radiusMm,
    strokesMm,
    turnsDeg: [turnDeg(strokesMm[0]), turnDeg(largestMm)],
    travelShare: travelShare(largestMm, radiusMm, pot.electricalTravelDeg),
    worstShare,
    proposedRadiusMm: proposedRadiusMm(largestMm, pot.electricalTravelDeg, worstDeg, threadMm),
    deadShare: worstShare > 1 ? (1 - 1 / worstShare) / 2 : 0,
    isStopped: turnDeg(largestMm) > pot.mechanicalTravelDeg * shortest,
    counts,
    countsPerDeg: counts[1] / turnDeg(largestMm),
    mmPerCount: largestMm / counts[1],
    turnsOnSpool,
    oneGrooveGrowth: turnDeg(largestMm) / spoolTurnDeg(largestMm, radiusMm, 0) - 1,
    sideBySideGrowth: helixTurnMm(radiusMm, threadMm) / helixTurnMm(radiusMm, 0) - 1,
    oneGrooveWidthMm: singleGrooveWidthMm(threadMm),
    oneLayerWidthMm: oneLayerWidthMm(turnsOnSpool, threadMm),
    roomMm,
    layers: layersIn(roomMm, turnsOnSpool, threadMm),
    string: stringLength(finger, largestMm, hands[1]),
    margins: [],
  };
  size.margins = spoolMargins(size, finger);
  return size;
}

/** The radius for 80 % of the nominal travel, enlarged until 5 % is free at both ends in the worst case. */
function proposedRadiusMm(stroke: number, electricalDeg: number, worstDeg: number, threadMm: number): number {
  let tenths = Math.ceil(10 * spoolRadiusMm(stroke, electricalDeg, GOOD_TRAVEL_SHARE) - 1e-9);
  while (spoolTurnDeg(stroke, tenths / 10, threadMm) > MOST_TRAVEL_SHARE * worstDeg) tenths += 1;
  return tenths / 10;
}

/** Counts between open and closed on a hand that draws so much. */
function countsOf(rig: Rig, finger: Finger, stroke: number): number {
  // The reading depends on the hand only through the stroke.
  const size = stroke / fullExcursionMm(finger, 0);
  const ends = nominalEnds({ ...rig, hand: { ...rig.hand, scale: size } }, finger);
  return 4096 * (ends.closed - ends.open);
}
