/**
 * True when a step is large enough to count as movement. A NaN step does not count.
 * @param step new reading minus smoothed value
 * @param bandSquared square of half the band's width, same unit squared; negative = everything counts
 */
export function moves(step: number, bandSquared: number): boolean {
  return step * step > bandSquared;
}

/**
 * Whether the smoothed value has left a band round the held one.
 * @param over smoothed value minus held one
 * @param half half the band's width, >= 0
 */
export function leaves(over: number, half: number): boolean {
  return over > half || over < -half;
}

/**
 * The held value is dragged along by the edges of a band round it: smooth, but half a width behind.
 * @param held output so far
 * @param level smoothed value
 * @param half half the band's width, >= 0
 */
export function drag(held: number, level: number, half: number): number {
  return leaves(level - held, half) ? dragged(level, level - held, half) : held;
}

/** Where the edge of the band drags the held value to. @param over smoothed value minus held one, outside the band */
export function dragged(level: number, over: number, half: number): number {
  return over > 0 ? level - half : level + half;
}

/**
 * The held value jumps to the smoothed one once that has left a band round it.
 * @param held output so far
 * @param level smoothed value
 * @param half half the band's width, >= 0
 */
export function jump(held: number, level: number, half: number): number {
  return leaves(level - held, half) ? level : held;
}
