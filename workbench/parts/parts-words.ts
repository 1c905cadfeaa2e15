import type { ChangeCost } from '../../sim/sizing/parts/change-costs.ts';
import type { PartUnit } from '../../sim/sizing/parts/part-catalogue.ts';
import { moneyWords, type PartsSize } from '../../sim/sizing/parts/parts-size.ts';
import type { PricedPart } from '../../sim/sizing/parts/prices.ts';

const UNIT_WORDS: Record<PartUnit, string> = { piece: '', m: ' m', g: ' g' };

export const NOT_COUNTED = 'Not counted: tools, solder, glue, heat-shrink tube, postage.';

/** `6`, `1.5 m`, `180 g` */
export function amountWords(part: Pick<PricedPart, 'quantity' | 'unit'>): string {
  return `${Number(part.quantity.toFixed(2))}${UNIT_WORDS[part.unit]}`;
}

/**
 * Lines of one hand beside those of two. Both lists come from the same rig in the same order; only the words on a
 * glove differ.
 */
export function partRows(size: PartsSize): { one: PricedPart; two: PricedPart }[] {
  return size.one.lines.map((one, index) => ({ one, two: size.two.lines[index]! }));
}

/** Cost of a line, and that it is for whole packs where it is. */
export function costWords(part: PricedPart): string {
  if (part.cost === undefined) return 'no price';
  return part.packs === undefined
    ? part.cost.toFixed(2)
    : `${part.cost.toFixed(2)} (${part.packs} pack${part.packs === 1 ? '' : 's'})`;
}

/** Where the prices come from, as a sentence. */
export function priceWords(size: PartsSize): string {
  return `Prices in ${size.currency}, ${size.priceDate}: ${size.priceSource}.`;
}

/** Which parts have no price; undefined if all have one. */
export function missingWords(size: PartsSize): string | undefined {
  const { missing } = size.two;
  if (missing.length === 0) return undefined;
  return `No price for: ${missing.join(', ')}. The totals are incomplete.`;
}

/** What one hand costs and by which prices, as one line. */
export function totalWords(size: PartsSize): string {
  const more = size.one.missing.length === 0 ? '' : ' and what has no price yet';
  return `About ${moneyWords(size.one.total, size.currency)}${more}. ${priceWords(size)}`;
}

/** How the total stands against the budget; undefined if there is none. */
export function budgetWords(size: PartsSize): string | undefined {
  const { budget, currency } = size;
  if (budget === undefined) return undefined;
  const words = (total: number, most: number) => {
    const left = most - total;
    if (left < -0.004) return `${moneyWords(-left, currency)} over`;
    return left < 0.005 ? 'just reached' : `${moneyWords(left, currency)} left`;
  };
  return (
    `Budget of ${moneyWords(budget, currency)} a hand: ${words(size.one.total, budget)} for one, ` +
    `${words(size.two.total, 2 * budget)} for two.`
  );
}

/** `+0.75 EUR  1 % resistors` */
export function changeWords(change: ChangeCost & { what: string }, currency: string): string {
  return `${change.what}: ${changeCostWords(change, currency)}`;
}

/** `+0.75 EUR`, `costs the same`, `−1.00 EUR, or less: no price for joystick module`, `not known: no price for ...` */
export function changeCostWords({ cost, missing, addsUnpriced }: ChangeCost, currency: string): string {
  const unpriced = `no price for ${missing.join(', ')}`;
  if (addsUnpriced) return `not known: ${unpriced}`;
  const amount = Math.abs(cost) < 0.005 ? 'costs the same' : signed(cost, currency);
  return missing.length === 0 ? amount : `${amount}, or less: ${unpriced}`;
}

function signed(cost: number, currency: string): string {
  return `${cost < 0 ? '−' : '+'}${moneyWords(Math.abs(cost), currency)}`.trimEnd();
}
