import { TRAVEL_TOLERANCE_DEG } from '../../pot/tolerance.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { MOUNTING_DEG } from '../../study/draw-parts.ts';
import { strokeMm } from '../strings/stroke.ts';

/** Where the potentiometer turns and nothing changes. */
export interface DeadEnds {
  /** Shaft angle at each end of the mechanical travel that is dead, deg. */
  eachEndDeg: number;
  /** Shaft angle that the largest hand takes, and what the shortest part in tolerance reads of it, deg. */
  strokeDeg: number;
  readableDeg: number;
  /** Part of the closure at one end in which nothing moves, at its worst, %. */
  deadPct: number;
}

/** @param largestHand size of the largest hand, 1 = the published mean */
export function deadEndsOf(rig: Rig, finger: Finger, largestHand: number): DeadEnds {
  const { potentiometer: pot, spoolRadiusMm, stringDiameterMm } = finger;
  const strokeDeg = spoolTurnDeg(strokeMm(rig, finger, largestHand), spoolRadiusMm, stringDiameterMm);
  const readableDeg = pot.electricalTravelDeg * (1 - TRAVEL_TOLERANCE_DEG / pot.mechanicalTravelDeg);
  const deadDeg = Math.max(0, MOUNTING_DEG - (readableDeg - strokeDeg) / 2);
  return {
    eachEndDeg: (pot.mechanicalTravelDeg - pot.electricalTravelDeg) / 2,
    strokeDeg,
    readableDeg,
    deadPct: (100 * Math.min(deadDeg, strokeDeg)) / strokeDeg,
  };
}

/** Shaft angle that is free at each end over what a shaft mounted a little off the middle takes of it. */
export function deadEndRatio(ends: DeadEnds): number {
  return Math.max(0, (ends.readableDeg - ends.strokeDeg) / 2 / MOUNTING_DEG);
}
