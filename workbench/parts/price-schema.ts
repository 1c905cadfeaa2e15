import { z } from 'zod';
import {
  PART_CATALOGUE,
  PART_IDS,
  type PartId,
  type PartUnit,
} from '../../sim/sizing/parts/part-catalogue.ts';
import type { Price } from '../../sim/sizing/parts/prices.ts';
import { line, mapping, pushIssue, quantity, strict } from '../rig/field.ts';

/** Spellings of a pack's unit, each as so many of the part's own units. */
const PACK_UNITS: Record<PartUnit, Record<string, number>> = {
  piece: { '': 1, piece: 1, pieces: 1, pcs: 1 },
  m: { '': 1, m: 1, cm: 0.01 },
  g: { '': 1, g: 1, kg: 1000 },
};
const PACK_EXAMPLES: Record<PartUnit, string> = { piece: '10', m: '100 m', g: '1 kg' };
const MOST_PACKED = 1e6;

function packOf(unit: PartUnit) {
  const expected = `what is in the pack, such as ${PACK_EXAMPLES[unit]}`;
  return z.unknown().transform((input, ctx): number => {
    const read = /^(\d+\.?\d*|\.\d+)\s*([a-z]*)$/.exec(String(input).trim());
    const factor = read ? PACK_UNITS[unit][read[2]!] : undefined;
    const size = factor === undefined ? 0 : Number(read![1]) * factor;
    if (size > 0 && size <= MOST_PACKED) return size;
    const next = `write more than 0, counted in ${unit === 'piece' ? 'pieces' : unit}`;
    return pushIssue(ctx, input, { expected, next });
  });
}

/**
 * `8` is short for `{price: 8}`; `{price: 20, pack: 1 kg}` is a pack that cannot be split. Nothing behind the colon
 * is no price.
 */
function priceOf(unit: PartUnit) {
  const shape = strict({ price: quantity('money', 0, 1e6), pack: packOf(unit).optional() });
  const toPrice = shape.transform(
    ({ price, pack }): Price => (pack === undefined ? { amount: price } : { amount: price, pack }),
  );
  return z.preprocess((value) => {
    if (value === null) return undefined;
    return typeof value === 'object' ? value : { price: value };
  }, toPrice.optional());
}

/** Whether a text is a day of the calendar: `2026-02-30` is none. */
function isDay(text: string): boolean {
  const time = Date.parse(`${text}T00:00:00Z`);
  return (
    /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(time) && new Date(time).toISOString().startsWith(text)
  );
}

const date = z.unknown().transform((input, ctx): string => {
  if (typeof input === 'string' && isDay(input)) return input;
  return pushIssue(ctx, input, {
    expected: 'a date, such as 2026-11-25',
    next: 'write year-month-day, the day on which the prices were looked up',
  });
});

const prices = Object.fromEntries(PART_IDS.map((id) => [id, priceOf(PART_CATALOGUE[id].unit)])) as Record<
  PartId,
  ReturnType<typeof priceOf>
>;

/** The price file. */
export const priceSchema = strict({
  currency: line('a currency', 20),
  date: date.optional(),
  source: line('where the prices come from', 200).optional(),
  prices: mapping(prices),
});
