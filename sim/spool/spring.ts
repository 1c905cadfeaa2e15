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
