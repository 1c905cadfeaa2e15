/**
 * Whether a tick of the frame timer is to be worked on. After a stall the interpreter makes up for the missed ticks
 * back to back (99 after a stall of 1 s at 100 Hz: measured on espruino/Espruino c5ff787, Linux): those whose device
 * time has not advanced by half a period would only give the same frame again.
 * @param nowS device time, s
 * @param lastS device time of the last tick that was worked on, s
 * @returns 1 = work; also when the clock went back (it was set), since nothing would come before it catches up
 */
export function isTickDue(nowS: number, lastS: number, periodS: number): number {
  return nowS - lastS >= periodS / 2 || nowS < lastS ? 1 : 0;
}
