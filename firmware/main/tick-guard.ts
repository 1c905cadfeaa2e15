/**
 * Whether a tick of the frame timer is to be worked on. After a stall the interpreter makes up for the missed ticks
 * back to back (99 after a stall of 1 s at 100 Hz: measured on espruino/Espruino c5ff787, Linux): those whose device
 * time has not advanced by half a period would only give the same frame again. A filter fed with no time, or with
 * time that ran backwards, would be wrong too.
 * @param elapsedS device time since the last tick that was worked on, s
 * @returns also true when the clock went back (it was set): nothing would come before it catches up
 */
export function isTickDue(elapsedS: number, periodS: number): boolean {
  return elapsedS >= periodS / 2 || elapsedS < 0;
}

/**
 * Whether the chain is to start afresh from the new readings instead of sliding towards them.
 * @param gapS time from which on a silence counts as a gap, s; several frame periods
 */
export function isGap(elapsedS: number, gapS: number): boolean {
  return elapsedS >= gapS || elapsedS < 0;
}

/** Whether a frame comes more than one period late. */
export function isLate(elapsedS: number, periodS: number): boolean {
  return elapsedS > periodS * 2;
}
