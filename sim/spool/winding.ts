/**
 * String wound by a single-groove spool whose radius grows by one string diameter a turn: 2 pi (r0 n + d n^2 / 2).
 * @param turns from the bare core
 * @param coreRadiusMm radius of the first layer (its string's centre)
 * @param stringDiameterMm 0 = no growth
 */
export function windLengthMm(turns: number, coreRadiusMm: number, stringDiameterMm: number): number {
  return 2 * Math.PI * turns * (coreRadiusMm + (stringDiameterMm * turns) / 2);
}

/**
 * Turn of the spool when so much string is out. The spool is full with the hand open: `radiusMm` is the radius
 * where the string leaves it then, and it falls by one string diameter a turn as string is paid out.
 * @param stringOutMm string paid out since the open hand; < 0 winds further in, on a growing radius
 * @returns deg; stops growing where the radius would reach 0
 */
export function spoolTurnDeg(stringOutMm: number, radiusMm: number, stringDiameterMm: number): number {
  const square = radiusMm * radiusMm - (stringDiameterMm * stringOutMm) / Math.PI;
  if (square <= 0) return (360 * radiusMm) / stringDiameterMm;
  return (360 * stringOutMm) / (Math.PI * (radiusMm + Math.sqrt(square)));
}

/** String paid out at this turn, mm: the inverse of `spoolTurnDeg`. */
export function stringOutMm(turnDeg: number, radiusMm: number, stringDiameterMm: number): number {
  return windLengthMm(turnDeg / 360, radiusMm, -stringDiameterMm);
}
