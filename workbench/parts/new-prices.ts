import { PART_CATALOGUE, PART_IDS } from '../../sim/sizing/parts/part-catalogue.ts';
import { defaultPrices } from './default-prices.ts';

const COMMENT_COLUMN = 38;
const UNIT_WORDS = { piece: 'each', m: 'a metre', g: 'a gram' } as const;

const row = (text: string, comment: string) => `${text.padEnd(COMMENT_COLUMN)} # ${comment}`;

/** A price file to start from: every kind of part with its default price. Reading it gives the default prices. */
export function newPricesText(): string {
  const { currency, date, source, of } = defaultPrices();
  const lines = [
    '# What parts cost: "tautline size rig.yaml --prices" and the name of this file.',
    '# ALL PRICES HERE ARE INVENTED round figures for planning. Put in what your shops ask, then "date" and "source".',
    row('#   spring: 1.50', 'one piece, one metre or one gram, as each line says'),
    row('#   filament: {price: 20, pack: 1 kg}', 'a pack that cannot be split: whole packs are counted'),
    row('#   glove: 0', 'you have one already'),
    row('#   servo:', 'not known: it is listed as without a price'),
    row(`currency: ${currency}`, 'any text, it is only shown'),
    `date: ${date}`,
    `source: ${source}`,
    'prices:',
    ...PART_IDS.map((id) => {
      const { name, unit } = PART_CATALOGUE[id];
      return row(`  ${id}: ${of[id]!.amount.toFixed(2)}`, `${name}, ${UNIT_WORDS[unit]}`);
    }),
  ];
  return `${lines.join('\n')}\n`;
}
