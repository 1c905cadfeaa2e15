import { rnd } from '../../seed/mix.ts';
import type { Interval } from './interval.ts';
import { quantileInPlace } from './quantile.ts';

export interface BootstrapOptions {
  /** Two key words of the random stream, best from `keys`: the same keys give the same interval. */
  k0: number;
  k1: number;
  /** Number of resamples, >= 1; 2000 if left out. */
  resamples?: number;
  /** Share of resamples inside the interval, 0-1; 0.95 if left out. */
  level?: number;
}

export interface BootstrapInterval extends Interval {
  /** Standard deviation of the statistic over the resamples. */
  standardError: number;
}

/** Arithmetic mean; NaN of no values. */
export function mean(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum / values.length;
}

/**
 * Percentile bootstrap interval of any statistic of independent values.
 * @param values at least 1; the interval is too narrow for fewer than about 20
 * @param statistic must not keep or change the array, which is reused for every resample
 * @throws RangeError without values
 * Source: Efron and Tibshirani, An Introduction to the Bootstrap (1993), percentile interval.
 */
export function bootstrap(
  values: Float64Array,
  statistic: (sample: Float64Array) => number,
  options: BootstrapOptions,
): BootstrapInterval {
  const count = values.length;
  if (count === 0) throw new RangeError('bootstrap: no values; expected at least 1');
  const resamples = options.resamples ?? 2000;
  const tail = (1 - (options.level ?? 0.95)) / 2;
  const sample = new Float64Array(count);
  const results = new Float64Array(resamples);
  const toIndex = count / 4294967296;
  let draw = 0;
  for (let r = 0; r < resamples; r++) {
    for (let i = 0; i < count; i++) {
      // The shift makes the draw unsigned, whatever sign the generator gives its 32 bits.
      sample[i] = values[Math.floor((rnd(draw, options.k0, options.k1) >>> 0) * toIndex)];
      draw++;
    }
    results[r] = statistic(sample);
  }
  const centre = mean(results);
  let squares = 0;
  for (let r = 0; r < resamples; r++) squares += (results[r] - centre) * (results[r] - centre);
  return {
    estimate: statistic(values),
    low: quantileInPlace(results, tail, resamples),
    high: quantileInPlace(results, 1 - tail, resamples),
    standardError: Math.sqrt(squares / resamples),
  };
}

/**
 * Interval of the mean of after − before over pairs that share their scenario and seed, so that what both
 * have in common cancels.
 * @param before one value per pair
 * @param after same length and order
 * @throws RangeError when the lengths differ or there are no pairs
 */
export function bootstrapPairedDifference(
  before: Float64Array,
  after: Float64Array,
  options: BootstrapOptions,
): BootstrapInterval {
  if (before.length !== after.length) {
    throw new RangeError(`paired bootstrap: ${before.length} values against ${after.length}; expected pairs`);
  }
  return bootstrap(
    after.map((value, i) => value - before[i]),
    mean,
    options,
  );
}
