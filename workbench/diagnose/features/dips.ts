import { medianOf, quantileOf } from './statistics.ts';

/** Short falls of a level that else stays where it is. */
export interface Dips {
  count: number;
  /** Falls against short rises of the same size: 1 = only falls. */
  downShare: number;
  /** Median depth, in the unit of the row. */
  depth: number;
  /** Median length, rows. */
  rows: number;
}

/** Rows on either side that say what the level should be. */
const REACH = 25;

/** Running median over `reach` rows on either side. */
export function runningMedian(row: Float64Array, reach: number): Float64Array {
  return row.map((_, i) =>
    quantileOf(row.slice(Math.max(0, i - reach), Math.min(row.length, i + reach + 1)).sort(), 0.5),
  );
}

/** @param limit depth from which a fall is one */
export function dipsOf(row: Float64Array, limit: number): Dips {
  const level = runningMedian(row, REACH);
  const depths: number[] = [];
  const lengths: number[] = [];
  let rises = 0;
  let depth = 0;
  let length = 0;
  let inRise = false;
  for (let i = 0; i <= row.length; i++) {
    const fall = i < row.length ? level[i]! - row[i]! : 0;
    if (fall > limit) {
      depth = Math.max(depth, fall);
      length++;
    } else if (length > 0) {
      depths.push(depth);
      lengths.push(length);
      depth = 0;
      length = 0;
    }
    if (fall < -limit !== inRise) {
      inRise = !inRise;
      if (inRise) rises++;
    }
  }
  return {
    count: depths.length,
    downShare: depths.length / Math.max(1, depths.length + rises),
    depth: depths.length > 0 ? medianOf(depths) : 0,
    rows: lengths.length > 0 ? medianOf(lengths) : 0,
  };
}
