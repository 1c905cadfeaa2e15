import type { Interval } from './interval.ts';

/** Two-sided 95 %: the 0.975 quantile of the standard normal distribution. */
export const Z_95 = 1.959963984540054;

/**
 * Score interval for a share, without continuity correction. Sound for few trials and for shares near 0 or 1.
 * @param hits integer, 0 <= hits <= trials
 * @param trials integer; 0 gives the interval 0-1 and a NaN estimate
 * @param z width in sd of the normal distribution, `Z_95` for 95 %
 * @throws RangeError when hits or trials cannot be counts
 * Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209.
 */
export function wilsonInterval(hits: number, trials: number, z: number): Interval {
  if (!Number.isInteger(hits) || !Number.isInteger(trials) || hits < 0 || hits > trials) {
    throw new RangeError(`share: ${hits} of ${trials}; expected whole numbers with 0 <= hits <= trials`);
  }
  if (trials === 0) return { estimate: Number.NaN, low: 0, high: 1 };
  const share = hits / trials;
  const zz = z * z;
  const centre = share + zz / (2 * trials);
  const spread = z * Math.sqrt((share * (1 - share)) / trials + zz / (4 * trials * trials));
  const scale = 1 + zz / trials;
  return {
    estimate: share,
    // The formula gives the ends 0 and 1 only up to rounding.
    low: hits === 0 ? 0 : (centre - spread) / scale,
    high: hits === trials ? 1 : (centre + spread) / scale,
  };
}
