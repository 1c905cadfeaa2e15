/**
 * One axis of a joystick as the frame's byte: 0 at its low end, 128 in the middle, 255 at its high end.
 * @param reading 0-1
 * @param low reading at the end that is to be 0; may be above `high` (a stick mounted the other way round)
 * @param centre reading of the released stick, between the two
 * @param high reading at the end that is to be 255
 * @param dead distance from the centre that still is the centre, >= 0
 * @returns a whole number, 0-255; 128 for a reading that is none
 */
export function axisByte(reading: number, low: number, centre: number, high: number, dead: number): number {
  const away = reading - centre;
  const up = away * (high - centre) > 0;
  const travel = up ? high - centre : low - centre;
  const distance = (away < 0 ? -away : away) - dead;
  const full = (travel < 0 ? -travel : travel) - dead;
  // also false for NaN: a broken wire is a released stick
  if (!(distance > 0) || !(full > 0)) return 128;
  const share = distance < full ? distance / full : 1;
  // the middle is 128 of 255: one step more downwards than upwards
  return up ? (128.5 + 127 * share) | 0 : (128.5 - 128 * share) | 0;
}
