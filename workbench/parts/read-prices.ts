import { TautlineError } from '../../sim/errors.ts';
import { PART_IDS } from '../../sim/sizing/parts/part-catalogue.ts';
import type { Prices } from '../../sim/sizing/parts/prices.ts';
import { openYaml } from '../rig/open-yaml.ts';
import { decodeText, type FileKind, readUserFile } from '../rig/read-text-file.ts';
import { tolerantParse } from '../rig/tolerant-parse.ts';
import type { YamlKind } from '../rig/yaml-source.ts';
import { priceSchema } from './price-schema.ts';

const MAX_PRICE_BYTES = 100_000;
const EXAMPLE = 'tautline new --prices';

const PRICES: YamlKind = {
  code: 'prices/invalid',
  noun: 'a price file',
  example: EXAMPLE,
  insteadOfAlias: 'write the price out',
  most: { characters: MAX_PRICE_BYTES, words: '100 kB' },
};

const PRICE_FILE: FileKind = {
  area: 'prices',
  noun: 'a price file',
  maxBytes: MAX_PRICE_BYTES,
  ifMissing: `check the path, or run "${EXAMPLE}" for one to start from`,
};

/**
 * Reads prices from text. Runs in browsers too.
 * @param fileName path for messages
 * @throws TautlineError `prices/invalid` with every problem found, each at its line and column
 */
export function parsePrices(text: string, fileName: string): Prices {
  const { source, problems: yaml } = openYaml(text, fileName, PRICES);
  const { block, problems } = tolerantParse(source, priceSchema);
  const errors = [...yaml, ...problems];
  if (block === undefined || errors.length > 0) throw TautlineError.fromProblems(PRICES.code, errors);
  const of: Prices['of'] = {};
  for (const id of PART_IDS) {
    const price = block.prices[id];
    if (price !== undefined) of[id] = price;
  }
  return {
    currency: block.currency,
    date: block.date ?? 'of an unknown date',
    source: block.source ?? `from ${fileName}`,
    of,
  };
}

/**
 * Reads a price file.
 * @throws TautlineError `prices/invalid` with every problem at its line and column; `prices/not-found`,
 *   `prices/directory`, `prices/too-large`, `prices/binary` or `prices/unreadable` for the file as a whole
 */
export function readPrices(path: string): Prices {
  return parsePrices(decodeText(readUserFile(path, PRICE_FILE), path, PRICE_FILE), path);
}
