import { meanOf, sdOf, sortedOf, type Values } from './statistics.ts';

/** Two levels that a row flips between. */
export interface TwoLevels {
  low: number;
  high: number;
  /** Share of the values at the lower level. */
  lowShare: number;
  /** Empty gap between the two, over the larger standard deviation of both (at least 1). */
  apart: number;
  /** Changes from one level to the other. */
  flips: number;
}

/** Smallest share of the values that makes a level. */
const LEAST_SHARE = 0.02;

/** Splits a row at the widest gap that leaves enough values on both sides; undefined for fewer than 20 values. */
export function twoLevelsOf(values: Values): TwoLevels | undefined {
  const sorted = sortedOf(values);
  if (sorted.length < 20) return undefined;
  const from = Math.ceil(LEAST_SHARE * sorted.length);
  let at = from;
  for (let i = from; i <= sorted.length - from; i++) {
    if (sorted[i]! - sorted[i - 1]! > sorted[at]! - sorted[at - 1]!) at = i;
  }
  const low = sorted.subarray(0, at);
  const high = sorted.subarray(at);
  const gap = high[0]! - low[low.length - 1]!;
  const cut = low[low.length - 1]! + gap / 2;
  let flips = 0;
  for (let i = 1; i < values.length; i++) if (values[i]! > cut !== values[i - 1]! > cut) flips++;
  return {
    low: meanOf(low),
    high: meanOf(high),
    lowShare: low.length / sorted.length,
    apart: gap / Math.max(sdOf(low), sdOf(high), 1),
    flips,
  };
}
