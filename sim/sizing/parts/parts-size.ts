import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { type ChangeCost, changeCosts } from './change-costs.ts';
import { partsList } from './parts-list.ts';
import { type PricedList, type Prices, priced } from './prices.ts';
import { possibleSavings, usualChanges } from './usual-changes.ts';

/** So many of the dearest lines, and of the largest savings, are named as a cure. */
const NAMED = 3;

/** What has to be bought and what it costs. */
export interface PartsSize {
  currency: string;
  priceDate: string;
  priceSource: string;
  one: PricedList;
  /** A pair of the same build. */
  two: PricedList;
  /** For one hand. */
  budget?: number;
  /** What usual changes cost for one hand, in the order in which they are thought of. */
  changes: (ChangeCost & { what: string })[];
  /** What would make one hand cheaper, the largest saving first. */
  savings: (ChangeCost & { what: string })[];
  margins: Margin[];
}

/** Parts of a rig with their prices, and how they stand against its budget. */
export function sizeParts(rig: Rig, prices: Prices): PartsSize {
  const one = priced(partsList(rig, 1), prices);
  const size: PartsSize = {
    currency: prices.currency,
    priceDate: prices.date,
    priceSource: prices.source,
    one,
    two: priced(partsList(rig, 2), prices),
    changes: changeCosts(rig, usualChanges(rig), prices),
    savings: changeCosts(rig, possibleSavings(rig), prices)
      .filter(({ cost, addsUnpriced }) => cost < 0 && !addsUnpriced)
      .sort((a, b) => a.cost - b.cost),
    margins: [],
  };
  if (rig.budget !== undefined) {
    size.budget = rig.budget;
    size.margins = [budgetMargin(rig, size, rig.budget)];
  }
  return size;
}

function budgetMargin(rig: Rig, size: PartsSize, budget: number): Margin {
  const { total, missing } = size.one;
  const money = (amount: number) => moneyWords(amount, size.currency);
  const incomplete =
    missing.length === 0
      ? ''
      : `, and ${missing.length} part${missing.length === 1 ? '' : 's'} without a price`;
  return {
    group: 'parts',
    fingers: rig.fingers.map(({ name }) => name),
    isSoft: true,
    what: 'cost of one hand',
    ratio: total > 0 ? budget / total : Number.POSITIVE_INFINITY,
    seen: `${money(total)}${incomplete}`,
    allowed: `at most ${money(budget)}`,
    cure: cureOf(size),
  };
}

function cureOf({ one, savings, currency }: PartsSize): string {
  const dearest = [...one.lines]
    .filter(({ cost = 0 }) => cost > 0)
    .sort((a, b) => b.cost! - a.cost!)
    .slice(0, NAMED)
    .map(({ name, cost }) => `${name} ${moneyWords(cost!, currency)}`);
  const cheaper = savings
    .slice(0, NAMED)
    .map(({ what, cost }) => `${what} (${moneyWords(-cost, currency)} less)`);
  const cures = [`the dearest lines are ${dearest.join(', ')}: look for cheaper ones`];
  if (cheaper.length > 0) cures.push(`or do with ${cheaper.join(', or ')}`);
  return cures.join('; ');
}

/** `61.35 EUR` */
export function moneyWords(amount: number, currency: string): string {
  return `${amount.toFixed(2)} ${currency}`;
}
