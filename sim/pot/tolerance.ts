import type { Potentiometer, Wiring } from '../rig/rig.ts';

/** Spread of the mechanical travel between parts, deg: 280 +- 10 in the PTV09 datasheet. */
export const TRAVEL_TOLERANCE_DEG = 10;

/** One draw for each part value, in -1..1: the ends of the tolerance. */
export interface PartDraws {
  pot: number;
  top: number;
  bottom: number;
  travel: number;
}

/** The values of one build. */
export interface PartValues {
  potOhm: number;
  topOhm: number;
  bottomOhm: number;
  electricalTravelDeg: number;
  mechanicalTravelDeg: number;
}

/** Nominal value moved by its tolerance; a draw outside -1..1 counts as the end, one that is no number as 0. */
export function toleranced(nominal: number, tolerance: number, draw: number): number {
  return nominal * (1 + tolerance * clampDraw(draw));
}

/** A draw for `toleranced` from a normal number: the tolerance taken as three standard deviations (assumed). */
export function drawOfNormal(normal: number): number {
  return clampDraw(normal / 3);
}

/**
 * One build's part values. Both travels scale by the same draw, so that the dead ends stay in proportion
 * (assumed).
 */
export function partValues(
  potentiometer: Pick<
    Potentiometer,
    'resistanceOhm' | 'tolerance' | 'electricalTravelDeg' | 'mechanicalTravelDeg'
  >,
  wiring: Pick<Wiring, 'topOhm' | 'bottomOhm' | 'seriesTolerance'>,
  draws: PartDraws,
): PartValues {
  const travel = TRAVEL_TOLERANCE_DEG / potentiometer.mechanicalTravelDeg;
  return {
    potOhm: toleranced(potentiometer.resistanceOhm, potentiometer.tolerance, draws.pot),
    topOhm: toleranced(wiring.topOhm, wiring.seriesTolerance, draws.top),
    bottomOhm: toleranced(wiring.bottomOhm, wiring.seriesTolerance, draws.bottom),
    electricalTravelDeg: toleranced(potentiometer.electricalTravelDeg, travel, draws.travel),
    mechanicalTravelDeg: toleranced(potentiometer.mechanicalTravelDeg, travel, draws.travel),
  };
}

function clampDraw(draw: number): number {
  if (Number.isNaN(draw)) return 0;
  return draw > 1 ? 1 : draw < -1 ? -1 : draw;
}
