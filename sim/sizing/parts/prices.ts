import type { Part, PartId } from './part-catalogue.ts';

/** Price of one kind of part. */
export interface Price {
  /** Of one unit (piece, metre, gram), or of one whole pack; >= 0. */
  amount: number;
  /** Units in a pack that cannot be split, > 0; left out: sold by the unit. */
  pack?: number;
}

export interface Prices {
  /** As the price file has it; only ever shown. */
  currency: string;
  /** When the prices held, and where they come from. */
  date: string;
  source: string;
  of: Partial<Record<PartId, Price>>;
}

/** A part with what it costs. */
export interface PricedPart extends Part {
  /** Whole packs to buy, for parts that are sold in packs. */
  packs?: number;
  /** Rounded to hundredths; left out: no price is known. */
  cost?: number;
}

export interface PricedList {
  lines: PricedPart[];
  /** Sum of the costs as shown. */
  total: number;
  /** Names of parts without a price: with any, the total is incomplete. */
  missing: string[];
}

/** Amounts are summed as shown, so that who adds them up by hand gets the same. */
export function toHundredths(amount: number): number {
  // half a hundredth goes up, also where the double is a hair below it
  return Math.round(amount * 100 + 1e-6) / 100;
}

/** What these parts cost, each line rounded to hundredths. */
export function priced(parts: readonly Part[], prices: Prices): PricedList {
  const lines = parts.map((part): PricedPart => {
    const price = prices.of[part.id];
    if (price === undefined) return part;
    if (price.pack === undefined) return { ...part, cost: toHundredths(part.quantity * price.amount) };
    const packs = Math.ceil(part.quantity / price.pack - 1e-9);
    return { ...part, packs, cost: toHundredths(packs * price.amount) };
  });
  const missing = lines.filter(({ cost }) => cost === undefined).map(({ name }) => name);
  return {
    lines,
    total: toHundredths(lines.reduce((sum, { cost = 0 }) => sum + cost, 0)),
    missing: [...new Set(missing)],
  };
}
