// Host only: the limit of the open wire check, from the wiring.

export interface WiperLimits {
  /** Readings below this come from no wiper; 0 = the wiring cannot tell. */
  openBelow: number;
}

/** @param leastReading lowest reading with the wiper in place, at all tolerances; 0 without a resistor to ground */
export function wiperLimits(leastReading: number): WiperLimits {
  return { openBelow: leastReading / 2 };
}
