/**
 * Whether a reading is lower than any wiper in place can give: an open wiper falls to ground through its pull-down.
 * @param limit half of the least possible reading, in the reading's unit; 0 = this wiring cannot tell
 */
export function isOpenWiper(reading: number, limit: number): boolean {
  return reading < limit;
}

/**
 * Frames in a row in which a channel gave the same raw reads while another one moved. Frames in which nothing moves
 * tell nothing: they neither count nor clear.
 * @param same the sum of the raw reads equals the last one
 * @param most counting stops there
 * @param othersMoved at least one other channel moved by more than its noise
 */
export function frozenCount(count: number, same: boolean, othersMoved: boolean, most: number): number {
  return same ? (othersMoved && count < most ? count + 1 : count) : 0;
}

/** Whether a channel counts as frozen. @param frames needed, >= 1 */
export function isFrozen(count: number, frames: number): boolean {
  return count >= frames;
}
