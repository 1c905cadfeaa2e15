import { correlationOf, sdOf } from './statistics.ts';

/**
 * Share of the fingers' variance that they have in common: mean correlation over all pairs,
 * 0 for independent rows, 1 for equal ones.
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
