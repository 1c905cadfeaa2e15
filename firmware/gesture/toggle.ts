/**
 * Frames in a row for which the value has been beyond the threshold that would flip the gesture.
 * @param held count after the last frame
 * @param on gesture state, 0 or 1
 * @param value this frame's value; NaN counts as not beyond
 * @param onAbove value above which an off gesture wants to go on
 * @param offBelow value below which an on gesture wants to go off, <= onAbove
 */
export function toggleDwell(
  held: number,
  on: number,
  value: number,
  onAbove: number,
  offBelow: number,
): number {
  return on > 0 ? (value < offBelow ? held + 1 : 0) : value > onAbove ? held + 1 : 0;
}

/**
 * Gesture state after this frame. Call it after `toggleDwell`; no reset of the count is needed, because after
 * a flip the value is on the safe side of the other threshold and the count falls to 0.
 * @param on state so far, 0 or 1
 * @param held from `toggleDwell` of this frame
 * @param dwellFrames frames that the value must stay beyond the threshold after the first; 0 = flip at once
 */
export function nextToggle(on: number, held: number, dwellFrames: number): number {
  return held > dwellFrames ? 1 - on : on;
}
