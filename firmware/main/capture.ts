/** Lower end of the readings seen so far in a capture. */
export function capturedLow(low: number, reading: number): number {
  return reading < low ? reading : low;
}

/** Upper end of the readings seen so far in a capture. */
export function capturedHigh(high: number, reading: number): number {
  return reading > high ? reading : high;
}

/**
 * Whether a finger moved far enough in a capture to have new ends.
 * @param leastSpan in readings; a tenth of full scale is far above noise and below every useful build (assumed)
 */
export function hasMoved(low: number, high: number, leastSpan: number): boolean {
  return high - low >= leastSpan;
}

/**
 * The open end of a capture that began with the hand open: the one nearer to the first reading.
 * @param first reading when the capture began
 */
export function openEnd(first: number, low: number, high: number): number {
  return first - low <= high - first ? low : high;
}

/** The other end. @param open from `openEnd` */
export function closedEnd(open: number, low: number, high: number): number {
  return open === low ? high : low;
}
