/**
 * One-state adaptive low-pass: the larger the step, the more of it is taken. With r = rest + step²·rise the
 * new level is level + step·r / (1 + r), written as step − step / (1 + r) to spare one multiplication. The
 * share taken stays between 0 and 1 for every step, so that the filter is stable and never overshoots.
 * @param level smoothed value so far
 * @param step new reading minus `level`
 * @param base 1 + rest, from `adaptiveBase`; > 1
 * @param rise from `adaptiveRise`; >= 0, per square of the step's unit
 */
export function adaptive(level: number, step: number, base: number, rise: number): number {
  return level + (step - step / (base + step * step * rise));
}
