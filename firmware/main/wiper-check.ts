/**
 * Whether a reading is lower than any wiper in place can give: an open wiper falls to ground through its pull-down.
 * @param limit half of the least possible reading, in the reading's unit; 0 = this wiring cannot tell
 * @returns 1 = open, or no number at all (a pin that cannot read)
 */
export function isOpenWiper(reading: number, limit: number): number {
  return reading >= limit ? 0 : 1;
}

/**
 * Whether a reading has moved further in one frame than a string can.
 * @param largestStep see `wiperLimits`
 */
export function isWildStep(reading: number, previous: number, largestStep: number): number {
  return reading - previous > largestStep || previous - reading > largestStep ? 1 : 0;
}

/**
 * Frames in a row in which a channel gave the same raw reads while another one moved. Frames in which nothing moves
 * tell nothing: they neither count nor clear.
 * @param same 1 = all raw reads of this frame equal those of the last one
 * @param othersMoved 1 = at least one other channel moved by more than its noise
 */
export function frozenCount(count: number, same: number, othersMoved: number): number {
  return same ? (othersMoved ? count + 1 : count) : 0;
}

/** Whether a channel counts as frozen. @param frames needed, >= 1 */
export function isFrozen(count: number, frames: number): number {
  return count >= frames ? 1 : 0;
}
