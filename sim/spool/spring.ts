/**
 * Torque of a spiral strip spring, E b t^3 angle / (12 L), with the angle in rad. (Several web calculators print
 * the form for turns with "radians" beside it: wrong by 2 pi.)
 * @param modulusGPa Young's modulus; spring steel 200
 * @returns mN·m
 */
export function stripTorqueMNm(
  modulusGPa: number,
  widthMm: number,
  thicknessMm: number,
  lengthMm: number,
  angleRad: number,
): number {
  // GPa mm^3 is N m.
  return (1000 * modulusGPa * widthMm * thicknessMm ** 3 * angleRad) / (12 * lengthMm);
}

/** Bending stress of the strip at this torque, MPa: 6 M / (b t^2). */
export function stripStressMPa(torqueMNm: number, widthMm: number, thicknessMm: number): number {
  return (6 * torqueMNm) / (widthMm * thicknessMm * thicknessMm);
}

/**
 * Torque on the spool's shaft: linear in the turn, with intercoil friction as a share of it. The real torque of
 * a power spring falls fast near unwound; keep some preload turns.
 * @param turns spool turns from the open hand
 * @param openTorqueMNm torque with the hand open
 * @param perTurnMNm added torque per turn
 * @param hysteresis half-width as a share of the torque; 0.1 typical, 0.05-0.25 (assumed)
 * @param direction +1 string paying out, -1 winding in, 0 the mean
 */
export function springTorqueMNm(
  turns: number,
  openTorqueMNm: number,
  perTurnMNm: number,
  hysteresis: number,
  direction: number,
): number {
  return (openTorqueMNm + perTurnMNm * turns) * (1 + direction * hysteresis);
}

/**
 * Turns that a power spring in a half-full barrel gives: (sqrt(2 (Rc^2 + Ra^2)) - (Rc + Ra)) / t, the geometric
 * limit. Makers' rules give about a fifth less (from memory).
 * @param barrelRadiusMm inner radius of the barrel
 * @param arborRadiusMm radius of the arbor
 */
export function barrelTurns(barrelRadiusMm: number, arborRadiusMm: number, thicknessMm: number): number {
  const bothMm = Math.sqrt(2 * (barrelRadiusMm * barrelRadiusMm + arborRadiusMm * arborRadiusMm));
  return (bothMm - barrelRadiusMm - arborRadiusMm) / thicknessMm;
}

/**
 * Turns that a strip of this length gives in its barrel: from lying at the wall to wound solid on the arbor. The
 * geometric limit, a wider barrel always gives more; in one barrel, the strip that fills half of it (`barrelTurns`) gives the most.
 * @returns 0 when the strip does not fit
 */
export function turnsInBarrel(
  barrelRadiusMm: number,
  arborRadiusMm: number,
  thicknessMm: number,
  lengthMm: number,
): number {
  const areaMm2 = (lengthMm * thicknessMm) / Math.PI;
  const wallMm2 = barrelRadiusMm * barrelRadiusMm - areaMm2;
  if (wallMm2 < arborRadiusMm * arborRadiusMm) return 0;
  const solidMm = Math.sqrt(arborRadiusMm * arborRadiusMm + areaMm2);
  const turns = (solidMm - arborRadiusMm - (barrelRadiusMm - Math.sqrt(wallMm2))) / thicknessMm;
  return turns > 0 ? turns : 0;
}

/** Inner radius of the barrel that a strip fills to one half: no other strip gives more turns in that room. */
export function halfFullBarrelMm(arborRadiusMm: number, thicknessMm: number, lengthMm: number): number {
  return Math.sqrt(arborRadiusMm * arborRadiusMm + (2 * lengthMm * thicknessMm) / Math.PI);
}

/**
 * Highest bending stress that a strip is to be run at, MPa. Assumed: hardened spring steel breaks at 1500-2000 MPa,
 * and a spring that is wound all day needs a part of that left.
 */
export const MOST_STRIP_STRESS_MPA = 1000;
