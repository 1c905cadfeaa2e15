/**
 * True when a step is large enough to count as movement. A NaN step does not count.
 * @param step new reading minus smoothed value
 * @param bandSquared square of half the band's width, same unit squared; negative = everything counts
 */
export function moves(step: number, bandSquared: number): boolean {
  return step * step > bandSquared;
}

/** True when the smoothed value lies above a band round the held one. */
export function isAbove(held: number, level: number, half: number): boolean {
  return level > held + half;
}

/** True when the smoothed value lies below a band round the held one. */
export function isBelow(held: number, level: number, half: number): boolean {
  return level < held - half;
}

/**
 * The held value is dragged along by the edges of a band round it: smooth, but half a width behind.
 * @param held output so far
 * @param level smoothed value
 * @param half half the band's width, >= 0
 */
export function drag(held: number, level: number, half: number): number {
  return isAbove(held, level, half) ? level - half : isBelow(held, level, half) ? level + half : held;
}

/**
 * The held value jumps to the smoothed one once that has left a band round it.
 * @param held output so far
 * @param level smoothed value
 * @param half half the band's width, >= 0
 */
export function jump(held: number, level: number, half: number): number {
  return isAbove(held, level, half) || isBelow(held, level, half) ? level : held;
}
