import { correlationOf, lineOf, sdOf } from './statistics.ts';

/**
 * How far a row follows another one, sample by sample: regression of the changes, so that slow common drift does not
 * count. @returns coefficient (change of `row` for one of `other`) and the correlation of the changes
 */
export function couplingOf(
  row: Float64Array,
  other: Float64Array,
): { coefficient: number; correlation: number } {
  const a = changesOf(row);
  const b = changesOf(other);
  return { coefficient: lineOf(b, a).slope, correlation: correlationOf(a, b) };
}

/** Changes from row to row; 0 where one is not known. */
export function changesOf(row: Float64Array): Float64Array {
  const out = new Float64Array(Math.max(0, row.length - 1));
  for (let i = 0; i < out.length; i++) {
    const change = row[i + 1]! - row[i]!;
    out[i] = !Number.isNaN(change) ? change : 0;
  }
  return out;
}

/**
 * Share of the fingers' variance that they have in common: largest part of the variance of the rows' sum that sums of
 * independent rows would not have. 0 for independent rows, 1 for equal ones; rows are scaled to the same size.
 */
export function commonShareOf(rows: readonly Float64Array[]): number {
  const moving = rows.filter((row) => sdOf(row) > 0);
  if (moving.length < 2) return 0;
  let sum = 0;
  let pairs = 0;
  for (let i = 0; i < moving.length; i++) {
    for (let j = i + 1; j < moving.length; j++) {
      sum += correlationOf(moving[i]!, moving[j]!);
      pairs++;
    }
  }
  return Math.max(0, sum / pairs);
}
