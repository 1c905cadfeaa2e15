/**
 * What happens between string and spool: a string can pull the spool out, but only the spring winds it back, and
 * a string never pushes. All lengths are string paid out, mm.
 */
export interface SlackState {
  /** String that the spool has paid out, mm. */
  spoolMm: number;
  /** Speed at which the spool winds in, mm/s, >= 0. */
  speedMmPerS: number;
}

/**
 * Moves the spool one step. A pulling string drives it at once; otherwise it winds in, from its last speed and
 * with the given acceleration, until the string is taut. Speeds belong to the middle of a step (positions and
 * speeds alternate), so a string that speeds up less than the spool stays taut at every step length. Overrun of
 * the spool after a fast pull is left out (see FIDELITY.md).
 * @param state changed in place; reuse one object for the whole trace
 * @param stringMm string that the finger asks for now, mm
 * @param accelerationMmPerS2 `retractAccelerationMmPerS2`; <= 0 brakes the spool to a stop, not beyond
 * @returns the new `spoolMm`; never below `stringMm`
 */
export function stepSpool(
  state: SlackState,
  stringMm: number,
  dtS: number,
  accelerationMmPerS2: number,
): number {
  const before = state.spoolMm;
  const after = retract(before, state.speedMmPerS, stringMm, dtS, accelerationMmPerS2);
  const speed = (before - after) / dtS;
  state.spoolMm = after;
  state.speedMmPerS = speed > 0 ? speed : 0;
  return after;
}

/**
 * New position of the spool after one step; `stepSpool` without the state. The caller's next speed is
 * (before - after) / dt, or 0 when that is negative.
 * @param speedMmPerS speed at which the spool wound in over the step before, >= 0
 */
export function retract(
  spoolMm: number,
  speedMmPerS: number,
  stringMm: number,
  dtS: number,
  accelerationMmPerS2: number,
): number {
  if (stringMm >= spoolMm) return stringMm;
  const speed = speedMmPerS + accelerationMmPerS2 * dtS;
  if (!(speed > 0)) return spoolMm;
  const reached = spoolMm - speed * dtS;
  return reached > stringMm ? reached : stringMm;
}

/**
 * Acceleration of the winding-in spool while the string is slack.
 * @param springTorqueMNm mean torque of the spring at this turn
 * @param hysteresis share of it lost while unwinding, 0-0.5
 * @param dragMNm torque that turns the potentiometer's shaft
 * @param guideDragMNm drag of the slack string in its guides times the spool radius. Capstan friction grows from
 * tension and takes nothing from a slack string, so 0 unless measured.
 * @param inertiaKgM2 of everything on the shaft (`spoolInertiaKgM2`)
 * @returns mm/s^2 of string; <= 0: the spool does not move by itself
 */
export function retractAccelerationMmPerS2(
  springTorqueMNm: number,
  hysteresis: number,
  dragMNm: number,
  guideDragMNm: number,
  inertiaKgM2: number,
  radiusMm: number,
): number {
  const netMNm = springTorqueMNm * (1 - hysteresis) - dragMNm - guideDragMNm;
  return (netMNm * 0.001 * radiusMm) / inertiaKgM2;
}

/**
 * How many times the spring's winding-in torque covers what brakes it.
 * @returns > 1: the spool comes back by itself; <= 1: the string hangs slack; Infinity without drag
 */
export function willRetract(
  springTorqueMNm: number,
  hysteresis: number,
  dragMNm: number,
  guideDragMNm: number,
): number {
  return (springTorqueMNm * (1 - hysteresis)) / (dragMNm + guideDragMNm);
}
