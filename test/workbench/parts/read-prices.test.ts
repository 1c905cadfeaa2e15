import { describe, expect, it } from 'vitest';
import { formatProblems } from '../../../sim/errors.ts';
import { sizeParts } from '../../../sim/sizing/parts/parts-size.ts';
import { defaultPrices } from '../../../workbench/parts/default-prices.ts';
import { newPricesText } from '../../../workbench/parts/new-prices.ts';
import { parsePrices, readPrices } from '../../../workbench/parts/read-prices.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';
import { errorOf, testFolder } from '../rig/files.ts';

const HEAD = 'currency: crowns\n';
const folder = testFolder();
const problemOf = (text: string) => errorOf(() => parsePrices(text, 'prices.yaml')).problems[0]!;

describe('a price file', () => {
  it('as it is written to start from holds the default prices, said to be invented', () => {
    const text = newPricesText();
    expect(parsePrices(text, 'prices.yaml')).toEqual(defaultPrices());
    expect(text).toContain('ALL PRICES HERE ARE INVENTED');
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(120);
  });

  it('is read into amounts and packs', () => {
    const prices = parsePrices(
      `${HEAD}date: 2026-11-25\nsource: two shops\nprices:\n  spring: 1.5\n  glove: 0\n  screw: "0.08"\n` +
        '  filament: {price: 20, pack: 1 kg}\n  string: {price: 8, pack: 100 m}\n  resistor: {price: 0.8, pack: 10}\n' +
        '  tube: {price: 2, pack: 50 cm}\n  servo: # not asked yet\n',
      'prices.yaml',
    );
    expect(prices).toEqual({
      currency: 'crowns',
      date: '2026-11-25',
      source: 'two shops',
      of: {
        spring: { amount: 1.5 },
        glove: { amount: 0 },
        screw: { amount: 0.08 },
        filament: { amount: 20, pack: 1000 },
        string: { amount: 8, pack: 100 },
        resistor: { amount: 0.8, pack: 10 },
        tube: { amount: 2, pack: 0.5 },
      },
    });
  });

  it('without date and source is shown as that', () => {
    expect(parsePrices(`${HEAD}prices:\n`, 'mine.yaml')).toEqual({
      currency: 'crowns',
      date: 'of an unknown date',
      source: 'from mine.yaml',
      of: {},
    });
  });

  it('of the example is read, with its one part that has no price, and is marked as invented', () => {
    const prices = readPrices('examples/prices/puppet-theatre.yaml');
    expect(prices.source).toMatch(/invented/);
    expect(sizeParts(readRig('examples/puppet-right.yaml').rig, prices).one.missing).toEqual([
      'quick-release clip',
    ]);
  });
});

describe('a broken price file', () => {
  // text below the currency's line, place counted by hand, what must be seen, expected and said to be next
  it.each([
    [
      'an unknown part',
      'prices:\n  potentiometr: 2\n',
      '3:3',
      /unknown key "potentiometr" in prices/,
      /one of: board-esp32/,
      /did you mean "potentiometer"/,
    ],
    [
      'a board in other spelling',
      'prices:\n  boardEsp32s3: 2\n',
      '3:3',
      /"boardEsp32s3"/,
      /board-esp32-s3/,
      /did you mean "board-esp32-s3"/,
    ],
    [
      'a price with its currency',
      'prices:\n  spring: 2 EUR\n',
      '3:11',
      /"EUR"/,
      /amount of money/,
      /number alone/,
    ],
    [
      'a price below nothing',
      'prices:\n  spring: -2\n',
      '3:11',
      /is "-2"/,
      /0 to 1000000/,
      /check the value/,
    ],
    ['a comma', 'prices:\n  spring: 2,50\n', '3:11', /with a comma/, /money/, /decimal point: 2\.50/],
    ['a word', 'prices:\n  spring: cheap\n', '3:11', /"cheap"/, /money/, /12\.50/],
    [
      'a pack of nothing',
      'prices:\n  spring: {price: 9, pack: 0}\n',
      '3:28',
      /is "0"/,
      /such as 10/,
      /more than 0/,
    ],
    [
      'a pack of string in kilograms',
      'prices:\n  string: {price: 9, pack: 1 kg}\n',
      '3:28',
      /1 kg/,
      /100 m/,
      /in m/,
    ],
    [
      'a pack without a price',
      'prices:\n  string: {pack: 10}\n',
      '3:3',
      /has no "price"/,
      /money/,
      /add "price"/,
    ],
    [
      'an unknown key of a pack',
      'prices:\n  string: {price: 9, packs: 10}\n',
      '3:22',
      /"packs"/,
      /price, pack/,
      /"pack"/,
    ],
    [
      'a day that there is not',
      'date: 2026-02-30\nprices: {}\n',
      '2:7',
      /2026-02-30/,
      /a date/,
      /year-month-day/,
    ],
    [
      'a second price',
      'prices:\n  spring: 2\n  spring: 3\n',
      '4:3',
      /second time/,
      /each key once/,
      /remove/,
    ],
    [
      'an alias',
      'prices:\n  spring: &s 2\n  servo: *s\n',
      '4:10',
      /alias/,
      /plain values/,
      /write the price out/,
    ],
    ['a list', 'prices: [1, 2]\n', '2:9', /a list/, /a mapping/, /indented lines/],
  ])('is refused for %s, with its place', (_title, text, place, seen, expected, next) => {
    const problem = problemOf(HEAD + text);
    expect(`${problem.line}:${problem.column}`).toBe(place);
    expect(problem.seen).toMatch(seen);
    expect(problem.expected).toMatch(expected);
    expect(problem.next).toMatch(next);
  });

  it('needs a currency and prices', () => {
    const error = errorOf(() => parsePrices('date: 2026-11-25\n', 'prices.yaml'));
    expect(error.code).toBe('prices/invalid');
    expect(error.problems.map(({ seen }) => seen)).toEqual([
      'the file has no "currency"',
      'the file has no "prices"',
    ]);
  });

  it.each([
    ['', /an empty file/],
    ['- a\n', /a list/],
  ])('is told what a price file is: %j', (text, seen) => {
    const problem = problemOf(text);
    expect(problem.seen).toMatch(seen);
    expect(problem.expected).toMatch(/^a price file/);
    expect(problem.next).toContain('tautline new --prices');
  });

  it('has all its problems listed at once, in the order of the file', () => {
    const error = errorOf(() =>
      parsePrices(`${HEAD}prices:\n  spring: x\n  glov: 1\n  servo: y\n`, 'p.yaml'),
    );
    expect(error.problems.map(({ line }) => line)).toEqual([3, 4, 5]);
    expect(formatProblems(error)).toMatch(/^p\.yaml:3:11: prices\.spring is/);
  });

  it('is not a rig file, and says where prices go', () => {
    const error = errorOf(() => readPrices('examples/puppet-right.yaml'));
    expect(error.problems.some(({ seen }) => seen.includes('unknown key "hand"'))).toBe(true);
  });

  it('that is not there is answered with the command that writes one', () => {
    const error = errorOf(() => readPrices(folder.path('none.yaml')));
    expect(error.code).toBe('prices/not-found');
    expect(formatProblems(error)).toContain('tautline new --prices');
  });

  it('may be no larger than 100 kB', () => {
    const path = folder.put('large.yaml', `${HEAD}prices: {}\n#${'x'.repeat(100_001)}`);
    expect(errorOf(() => readPrices(path)).code).toBe('prices/too-large');
  });
});
