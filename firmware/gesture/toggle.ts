/**
 * Frames in a row for which the value has been beyond the threshold that would flip the gesture. A count above
 * the dwell has just flipped it, so the next one starts afresh.
 * @param held count after the last frame, 0 at the start
 * @param on gesture state, 0 or 1
 * @param value this frame's value; NaN counts as not beyond
 * @param onAbove value above which an off gesture wants to go on
 * @param offBelow value below which an on gesture wants to go off, <= onAbove
 * @param dwellFrames as in `nextToggle`
 */
export function toggleDwell(
  held: number,
  on: number,
  value: number,
  onAbove: number,
  offBelow: number,
  dwellFrames: number,
): number {
  return (on > 0 ? value < offBelow : value > onAbove) ? (held > dwellFrames ? 1 : held + 1) : 0;
}

/**
 * Gesture state after this frame. Call it after `toggleDwell`.
 * @param on state so far, 0 or 1
 * @param held from `toggleDwell` of this frame
 * @param dwellFrames frames that the value must stay beyond the threshold after the first; 0 = flip at once
 */
export function nextToggle(on: number, held: number, dwellFrames: number): number {
  return held > dwellFrames ? 1 - on : on;
}
