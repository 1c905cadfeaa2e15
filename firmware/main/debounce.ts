/**
 * Steps in a row for which a button has read otherwise than its state; call once a step, before `debounced`. A count
 * that has just changed the state starts afresh.
 * @param count after the last step, 0 at the start
 * @param pressed state so far, 0 or 1
 * @param raw what the pin says now, 1 = pressed
 * @param steps that the pin must read otherwise in a row, >= 1; 20 ms at 100 Hz are 2
 */
export function bounceCount(count: number, pressed: number, raw: number, steps: number): number {
  return raw === pressed ? 0 : count >= steps ? 1 : count + 1;
}

/**
 * State of a button after this step.
 * @param count from `bounceCount` of this step
 */
export function debounced(pressed: number, count: number, steps: number): number {
  return count >= steps ? 1 - pressed : pressed;
}
