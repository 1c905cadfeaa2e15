import type { Rig } from '../../rig/rig.ts';
import { type Change, withChanges } from '../change.ts';
import type { Part } from './part-catalogue.ts';
import { partsList } from './parts-list.ts';
import { type Prices, priced, toHundredths } from './prices.ts';

/** What a change costs before anything is bought. */
export interface ChangeCost {
  /** More (> 0) or less (< 0) to pay, in the currency of the prices. */
  cost: number;
  /** Names of parts that the change adds or takes away and that have no price: with any, the cost is incomplete. */
  missing: string[];
  /** Whether some of those are added: what the change costs is then not known, and no saving should be read from it. */
  addsUnpriced: boolean;
}

/** Difference of what two lists of parts cost. */
export function priceChange(before: readonly Part[], after: readonly Part[], prices: Prices): ChangeCost {
  const from = priced(before, prices);
  const to = priced(after, prices);
  const quantities = new Map<string, { name: string; more: number }>();
  for (const [sign, list] of [
    [-1, from],
    [1, to],
  ] as const) {
    for (const { id, spec, name, quantity, cost } of list.lines) {
      if (cost !== undefined) continue;
      const key = `${id} ${spec}`;
      quantities.set(key, { name, more: (quantities.get(key)?.more ?? 0) + sign * quantity });
    }
  }
  const changed = [...quantities.values()].filter(({ more }) => Math.abs(more) > 1e-9);
  return {
    cost: toHundredths(to.total - from.total),
    missing: [...new Set(changed.map(({ name }) => name))],
    addsUnpriced: changed.some(({ more }) => more > 0),
  };
}

/** A rig changed in one thing. */
export interface RigChange {
  /** What is changed, in words, e.g. `1 % resistors`. */
  what: string;
  rig: Rig;
}

/** What each change of a rig costs for one hand. */
export function changeCosts(
  rig: Rig,
  changes: readonly RigChange[],
  prices: Prices,
): (ChangeCost & { what: string })[] {
  const before = partsList(rig, 1);
  return changes.map((change) => ({
    what: change.what,
    ...priceChange(before, partsList(change.rig, 1), prices),
  }));
}

/** What each proposed change of single values costs for one hand, each made alone. */
export function proposalCosts(rig: Rig, changes: readonly Change[], prices: Prices): ChangeCost[] {
  const before = partsList(rig, 1);
  return changes.map((change) => priceChange(before, partsList(withChanges(rig, [change]), 1), prices));
}
