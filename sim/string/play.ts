/**
 * One step of the play operator (backlash): the output follows the input only when the slack of `halfWidth` is
 * used up. Rate independent: only the turning points of the input matter.
 * @param previous output of the step before
 * @param halfWidth >= 0, in the unit of the input; for an amplitude A > halfWidth the output swings A - halfWidth
 */
export function play(previous: number, input: number, halfWidth: number): number {
  const high = input + halfWidth;
  const low = input - halfWidth;
  return previous > high ? high : previous < low ? low : previous;
}
