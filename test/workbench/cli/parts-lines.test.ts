import { describe, expect, it } from 'vitest';
import { sizeParts } from '../../../sim/sizing/parts/parts-size.ts';
import { partsLines } from '../../../workbench/cli/size/parts-lines.ts';
import { defaultPrices } from '../../../workbench/parts/default-prices.ts';
import { readPrices } from '../../../workbench/parts/read-prices.ts';
import { columnsOf } from '../../../workbench/report/wrap.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const { rig } = readRig('examples/puppet-right.yaml');

describe('parts on the terminal', () => {
  it.each([72, 80, 100])('fit %i columns', (columns) => {
    for (const prices of [defaultPrices(), readPrices('examples/prices/puppet-theatre.yaml')]) {
      for (const line of partsLines(sizeParts({ ...rig, budget: 10 }, prices), columns)) {
        expect(columnsOf(line)).toBeLessThanOrEqual(columns);
      }
    }
  });

  it('give quantities, costs and totals of one hand and of two, and where the prices come from', () => {
    const text = partsLines(sizeParts(rig, defaultPrices()), 80).join('\n');
    expect(text).toMatch(/^Parts and prices\n {2}Prices in EUR, 2026-11-25: invented round figures/);
    expect(text).toMatch(/potentiometer, 10 kΩ ±20 %, linear, 280° +6 +9\.00 +12 +18\.00\n/);
    expect(text).toMatch(/resistor, 5\.6 kΩ ±5 % +5 +0\.25 +10 +0\.50\n/);
    const total = /Total +(\d+\.\d\d) +(\d+\.\d\d)\n/.exec(text)!;
    // what someone gets who adds the two columns up
    const columns = [...text.matchAll(/ (\d+\.\d\d) +[\d.]+(?: m| g)? +(\d+\.\d\d)$/gm)].map(
      ([, one, two]) => [Number(one), Number(two)],
    );
    expect(columns.length).toBe(sizeParts(rig, defaultPrices()).one.lines.length);
    for (const side of [0, 1]) {
      const sum = columns.reduce((cents, row) => cents + Math.round(100 * row[side]!), 0);
      expect(sum).toBe(Math.round(100 * Number(total[side + 1])));
    }
  });

  it('say what has no price and that the totals are incomplete', () => {
    const text = partsLines(sizeParts(rig, readPrices('examples/prices/puppet-theatre.yaml')), 110).join(
      '\n',
    );
    expect(text).toMatch(/quick-release clip, opens under a hard pull +5 +no price +10 +no price/);
    expect(text).toMatch(/No price for: quick-release clip\. The totals are incomplete\./);
    expect(text).toMatch(/\(1 pack\)/);
  });

  it('stand against the budget, for one hand and for two', () => {
    const total = sizeParts(rig, defaultPrices()).one.total;
    const words = (budget: number) =>
      partsLines(sizeParts({ ...rig, budget }, defaultPrices()), 200).join('\n');
    expect(words(total + 1.5)).toMatch(/ a hand: 1\.50 EUR left for one/);
    expect(words(total)).toMatch(/ a hand: just reached for one/);
    expect(words(total - 1.5)).toMatch(/ a hand: 1\.50 EUR over for one/);
    expect(words(total - 1.5)).toMatch(/Savings, for one hand/);
    expect(words(total + 1.5)).not.toMatch(/Savings/);
  });

  it('cannot steer the terminal by a currency', () => {
    const prices = { ...defaultPrices(), currency: '\u001b[31mEUR', source: 'a\nb' };
    expect(partsLines(sizeParts(rig, prices), 80).join('\n')).not.toContain('\u001b');
  });
});
