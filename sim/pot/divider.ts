/**
 * Voltage at the pin, settled: supply, top resistor, potentiometer, bottom resistor, ground; the wiper goes to
 * the pin, with an optional resistor from the pin to ground.
 * @param x electrical position of the wiper, 0 at the bottom end, 1 at the top end
 * @param topOhm 0 = a wire
 * @param bottomOhm 0 = a wire
 * @param pullDownOhm 0 = none
 */
export function dividerVolts(
  x: number,
  supplyV: number,
  potOhm: number,
  topOhm: number,
  bottomOhm: number,
  pullDownOhm: number,
): number {
  const lower = bottomOhm + x * potOhm;
  const total = topOhm + potOhm + bottomOhm;
  const openV = (supplyV * lower) / total;
  if (pullDownOhm === 0) return openV;
  return (openV * pullDownOhm) / (pullDownOhm + (lower * (total - lower)) / total);
}

/**
 * Resistance that the pin sees (Thevenin): times the pin's capacitor it gives the settling time constant.
 * @param pullDownOhm 0 leaves the pull-down out
 */
export function sourceOhm(
  x: number,
  potOhm: number,
  topOhm: number,
  bottomOhm: number,
  pullDownOhm: number,
): number {
  const lower = bottomOhm + x * potOhm;
  const total = topOhm + potOhm + bottomOhm;
  const bare = (lower * (total - lower)) / total;
  return pullDownOhm === 0 ? bare : (bare * pullDownOhm) / (bare + pullDownOhm);
}

/**
 * How much too low a potentiometer reads because of a load from wiper to ground: x - x / (1 + x (1-x) Rp / RL).
 * Zero at both ends, largest near x = 2/3, there about 4 Rp / (27 RL).
 * @returns share of the supply, >= 0
 */
export function loadingError(x: number, potOhm: number, loadOhm: number): number {
  const bend = (x * (1 - x) * potOhm) / loadOhm;
  return (x * bend) / (1 + bend);
}
