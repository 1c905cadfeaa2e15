/**
 * Bouc-Wen hysteresis with exponent 1, dz = A dx - beta |dx| z - gamma dx |z| (form from memory), solved exactly
 * over a stroke in one direction.
 * @param z hysteretic variable before
 * @param stroke signed movement
 * @param gain A, > 0
 * @param beta beta >= |gamma|, or the loop may give energy away (from memory)
 */
export function boucWen(z: number, stroke: number, gain: number, beta: number, gamma: number): number {
  const sign = stroke < 0 ? -1 : 1;
  let left = Math.abs(stroke);
  // Seen along the motion (w = z * sign) the slope is A - (beta - gamma) w below zero, A - (beta + gamma) w above.
  let w = z * sign;
  if (w < 0) {
    const rate = beta - gamma;
    const toZero = rate === 0 ? -w / gain : Math.log1p((-w * rate) / gain) / rate;
    // With rate < 0 and w beyond the unstable point, zero is never reached (log1p gives NaN).
    if (!(left >= toZero)) return sign * relax(w, left, gain, rate);
    left -= toZero;
    w = 0;
  }
  return sign * relax(w, left, gain, beta + gamma);
}

/** Largest |z|: (A / (beta + gamma))^(1/n), here for n = 1. */
export function boucWenLimit(gain: number, beta: number, gamma: number): number {
  return gain / (beta + gamma);
}

function relax(w: number, length: number, gain: number, rate: number): number {
  if (rate === 0) return w + gain * length;
  return w - (gain / rate - w) * Math.expm1(-rate * length);
}
