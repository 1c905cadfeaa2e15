/**
 * Wiper position of a shaft that the spool has turned. The shaft runs between two end stops; the wiper voltage
 * changes only over the electrical travel, which lies in the middle with an equal dead end on either side.
 * @param turnDeg turn of the spool since the open hand
 * @param startDeg shaft angle of the open hand, counted from the end stop; see `centredStartDeg`
 * @param mechanicalTravelDeg >= electricalTravelDeg > 0
 * @returns 0-1; 0 for a turn that is not a number
 */
export function wiperOfTurn(
  turnDeg: number,
  startDeg: number,
  electricalTravelDeg: number,
  mechanicalTravelDeg: number,
): number {
  // The dead ends lie between stop and electrical travel, so clamping to 0-1 covers the stops as well.
  const x = (startDeg + turnDeg - (mechanicalTravelDeg - electricalTravelDeg) / 2) / electricalTravelDeg;
  return x > 0 ? (x < 1 ? x : 1) : 0;
}

/** Shaft angle for the open hand that puts the stroke in the middle of the travel, deg from the end stop. */
export function centredStartDeg(strokeDeg: number, mechanicalTravelDeg: number): number {
  return (mechanicalTravelDeg - strokeDeg) / 2;
}

/** How far a turn would drive the shaft beyond its end stops, deg; 0 inside, < 0 below the first stop. */
export function beyondStopDeg(turnDeg: number, startDeg: number, mechanicalTravelDeg: number): number {
  const shaftDeg = startDeg + turnDeg;
  return shaftDeg < 0 ? shaftDeg : shaftDeg > mechanicalTravelDeg ? shaftDeg - mechanicalTravelDeg : 0;
}
