/** Round numbers (1, 2 or 5 times a power of ten) inside [low, high], about `target` of them; at least one step apart. */
export function linearTicks(low: number, high: number, target: number): number[] {
  const step = high > low ? niceStep((high - low) / Math.max(1, target)) : 0;
  if (!(step > 0) || !Number.isFinite(Math.max(Math.abs(low), Math.abs(high)) / step)) return [low];
  const ticks: number[] = [];
  const last = Math.floor(high / step + 1e-9);
  for (let index = Math.ceil(low / step - 1e-9); index <= last; index++) ticks.push(tidy(index * step));
  return ticks;
}

/** The smallest of 1, 2, 5 times a power of ten that is not below `rough`. */
export function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  for (const factor of [1, 2, 5]) if (factor * power >= rough * (1 - 1e-9)) return tidy(factor * power);
  return tidy(10 * power);
}

const DECADE_FACTORS = [[1, 1.5, 2, 3, 4, 5, 6, 8], [1, 2, 3, 5], [1, 2, 5], [1, 3], [1]];

/**
 * Ticks for a logarithmic axis inside [low, high], both > 0: as many round numbers in each decade as
 * give at most `most` ticks, else powers of ten, else every few powers. Falls back to linear ticks where not even two would show.
 */
export function logTicks(low: number, high: number, most: number): number[] {
  for (const factors of DECADE_FACTORS) {
    const ticks = decadeTicks(low, high, factors, 1);
    if (ticks.length <= most) return ticks.length >= 2 ? ticks : linearTicks(low, high, Math.min(most, 3));
  }
  for (let stride = 2; ; stride++) {
    const ticks = decadeTicks(low, high, [1], stride);
    if (ticks.length <= most) return ticks;
  }
}

function decadeTicks(low: number, high: number, factors: number[], stride: number): number[] {
  const ticks: number[] = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++) {
    if (power % stride !== 0) continue;
    for (const factor of factors) {
      const tick = tidy(factor * 10 ** power);
      if (tick >= low * (1 - 1e-9) && tick <= high * (1 + 1e-9)) ticks.push(tick);
    }
  }
  return ticks;
}

/** Removes the last-digit dirt of binary fractions (0.30000000000000004). */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}
