import { travelOfWord } from '../../../firmware/chain/travel.ts';
import type { HandRows } from '../evidence.ts';
import { quantileOf, sortedOf } from './statistics.ts';

/** Travel of each finger over time; NaN where the board sent no valid value. */
export function travelRows(rows: HandRows): Float64Array[] {
  return rows.words.map((words) => Float64Array.from(words, travelOfWord));
}

/** Where a finger's travel lies over a passage. */
export interface TravelRange {
  /** 2 % of the rows lie below. */
  low: number;
  /** 2 % lie above. */
  high: number;
  /** Share of rows without a valid value. */
  invalidShare: number;
}

export function travelRangeOf(travel: Float64Array): TravelRange {
  const sorted = sortedOf(travel);
  return {
    low: quantileOf(sorted, 0.02),
    high: quantileOf(sorted, 0.98),
    invalidShare: travel.length > 0 ? 1 - sorted.length / travel.length : 0,
  };
}

/**
 * Travel scaled to 0 to 1 between its own ends, so that fingers can be compared. A finger that hardly moves stays
 * near its middle: there is nothing to scale.
 * @param least smallest range that is scaled, travel
 */
export function scaledOf(travel: Float64Array, range: TravelRange, least: number): Float64Array | undefined {
  const span = range.high - range.low;
  return span >= least ? travel.map((t) => (t - range.low) / span) : undefined;
}

/** Row by row the median of several rows, values that are no numbers left out; NaN where there is none. */
export function medianRows(rows: readonly Float64Array[]): Float64Array {
  const length = rows[0]?.length ?? 0;
  const out = new Float64Array(length);
  const column: number[] = [];
  for (let i = 0; i < length; i++) {
    column.length = 0;
    for (const row of rows) {
      const v = row[i]!;
      if (!Number.isNaN(v)) column.push(v);
    }
    column.sort((a, b) => a - b);
    const half = column.length >> 1;
    out[i] =
      column.length === 0
        ? NaN
        : column.length % 2 === 1
          ? column[half]!
          : (column[half - 1]! + column[half]!) / 2;
  }
  return out;
}
