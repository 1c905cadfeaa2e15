import { describe, expect, it } from 'vitest';
import { changeCosts, priceChange, proposalCosts } from '../../../sim/sizing/parts/change-costs.ts';
import { partsList } from '../../../sim/sizing/parts/parts-list.ts';
import { sizeParts } from '../../../sim/sizing/parts/parts-size.ts';
import { type Prices, priced, toHundredths } from '../../../sim/sizing/parts/prices.ts';
import { usualChanges } from '../../../sim/sizing/parts/usual-changes.ts';
import { defaultPrices } from '../../../workbench/parts/default-prices.ts';
import { changeCostWords } from '../../../workbench/parts/parts-words.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const { rig } = readRig('examples/puppet-right.yaml');
const pricesOf = (of: Prices['of']): Prices => ({
  currency: 'crowns',
  date: '2026-11-25',
  source: 'test',
  of,
});

describe('what the puppet theatre’s right hand costs', () => {
  // by hand: 6 potentiometers at 2, 5 + 5 + 5 resistors at 0.05, 5 springs at 1.25; for two hands 12, 30 and 10
  it('is 12.00 + 0.75 + 6.25 = 19.00, and 38.00 for two', () => {
    const prices = pricesOf({
      potentiometer: { amount: 2 },
      resistor: { amount: 0.05 },
      spring: { amount: 1.25 },
    });
    const size = sizeParts(rig, prices);
    expect([size.one.total, size.two.total]).toEqual([19, 38]);
    expect(size.one.missing).toContain('ESP32 board');
    expect(size.one.missing).not.toContain('resistor');
    expect(size.one.lines.find(({ id }) => id === 'glove')).not.toHaveProperty('cost');
  });

  // three values of resistor in bags of ten at 0.80 each, enough for two hands; one reel of 1 kg for 190 or 370 g
  it('counts whole packs, each value of resistor in its own', () => {
    const prices = pricesOf({ resistor: { amount: 0.8, pack: 10 }, filament: { amount: 20, pack: 1000 } });
    const size = sizeParts(rig, prices);
    expect([size.one.total, size.two.total]).toEqual([22.4, 22.4]);
    const bags = size.two.lines.filter(({ id }) => id === 'resistor');
    expect(bags.map(({ quantity, packs, cost }) => [quantity, packs, cost])).toEqual(
      [1, 2, 3].map(() => [10, 1, 0.8]),
    );
    // 11 resistors of a value take a second bag
    const [bag] = priced([{ ...bags[0]!, quantity: 11 }], prices).lines;
    expect([bag!.packs, bag!.cost]).toEqual([2, 1.6]);
  });

  it('knows free parts from parts without a price', () => {
    const size = sizeParts(rig, pricesOf({ usbCable: { amount: 0 } }));
    expect(size.one.total).toBe(0);
    expect(size.one.missing).not.toContain('USB data cable');
    expect(size.one.lines.find(({ id }) => id === 'usbCable')!.cost).toBe(0);
  });

  it('rounds half a hundredth up, as people do', () => {
    expect([0.125, 1.005, 2.675, 10.235].map(toHundredths)).toEqual([0.13, 1.01, 2.68, 10.24]);
  });

  it('has a default price for every part, all marked as invented and dated', () => {
    const prices = defaultPrices();
    expect(sizeParts(rig, prices).two.missing).toEqual([]);
    expect(prices.source).toMatch(/invented/);
    expect(prices.date).toMatch(/^\d{4}-\d{2}-\d{2}$/);
  });
});

describe('a budget', () => {
  const prices = pricesOf({
    potentiometer: { amount: 2 },
    spring: { amount: 1.25 },
    'board-esp32': { amount: 8 },
  });
  // 12 + 6.25 + 8 = 26.25

  it('that is too small is a soft margin below 1 that names the dearest lines and what would save', () => {
    const { margins } = sizeParts({ ...rig, budget: 21 }, prices);
    expect(margins).toHaveLength(1);
    expect(margins[0]).toMatchObject({
      group: 'parts',
      isSoft: true,
      seen: expect.stringMatching(/^26\.25 crowns, and \d+ parts without a price$/),
      allowed: 'at most 21.00 crowns',
    });
    expect(margins[0]!.ratio).toBeCloseTo(0.8, 12);
    expect(margins[0]!.cure).toMatch(
      /^the dearest lines are potentiometer 12\.00 crowns, ESP32 board 8\.00 crowns/,
    );
    // two fingers less: 6 - 4 potentiometers (three and a spare) and two springs = 4 + 2.50
    expect(margins[0]!.cure).toContain('only thumb, index, middle to begin with (6.50 crowns less)');
  });

  it('that is met to the hundredth is met', () => {
    expect(sizeParts({ ...rig, budget: 26.25 }, prices).margins[0]!.ratio).toBe(1);
  });

  it('that is not stated gives no margin', () => {
    const size = sizeParts(rig, prices);
    expect(size.margins).toEqual([]);
    expect(size).not.toHaveProperty('budget');
  });

  it('cannot be missed by parts that cost nothing', () => {
    expect(sizeParts({ ...rig, budget: 1 }, pricesOf({})).margins[0]!.ratio).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('what a change costs', () => {
  const prices = defaultPrices();
  const costOf = (what: RegExp, of = rig) => {
    const found = changeCosts(of, usualChanges(of), prices).find((change) => what.test(change.what));
    return found?.cost;
  };

  // at the default prices, by hand: 15 resistors from 0.05 to 0.10; 6 potentiometers from 1.50 to 6.00; a multiplexer
  // of 2.00 with a capacitor of 0.10; two precise resistors of 0.10
  it('is worked out from the two lists of parts', () => {
    expect(costOf(/^1 % resistors/)).toBe(0.75);
    expect(costOf(/100 000 cycles/)).toBe(27);
    expect(costOf(/multiplexer/)).toBe(2.1);
    // two resistors and a capacitor at 0.10
    expect(costOf(/supply measured/)).toBe(0.3);
  });

  it('is three capacitors of 0.10 for the breadboard, and not offered where there are capacitors', () => {
    expect(costOf(/100 nF/, readRig('examples/marionette-left.yaml').rig)).toBe(0.3);
    expect(costOf(/100 nF/)).toBeUndefined();
  });

  it('is nothing for another value of resistor, and a resistor’s price more where there was a wire', () => {
    const [toOther] = proposalCosts(
      rig,
      [{ value: 'topResistor', fingers: ['index'], from: 5600, to: 6800, why: '' }],
      prices,
    );
    expect(toOther).toEqual({ cost: 0, missing: [], addsUnpriced: false });
    const [toNone] = proposalCosts(
      rig,
      [{ value: 'pullDown', fingers: ['index', 'ring'], from: 100_000, to: 0, why: '' }],
      prices,
    );
    expect(toNone).toEqual({ cost: -0.1, missing: [], addsUnpriced: false });
  });

  it('names the parts without a price that it adds, and not those that stay', () => {
    const { multiplexer: _, glove: __, ...of } = prices.of;
    const change = usualChanges(rig).find(({ what }) => what.includes('multiplexer'))!;
    const cost = priceChange(partsList(rig, 1), partsList(change.rig, 1), { ...prices, of });
    expect(cost).toEqual({ cost: 0.1, missing: ['analog multiplexer module'], addsUnpriced: true });
    // the way back takes it away: at least so much less to pay
    const back = priceChange(partsList(change.rig, 1), partsList(rig, 1), { ...prices, of });
    expect(back).toEqual({ cost: -0.1, missing: ['analog multiplexer module'], addsUnpriced: false });
  });

  it('is no saving when what is bought instead has no price', () => {
    // 15 resistors of 0.05 would go; what 15 precise ones cost is not known
    const { preciseResistor: _, potentiometer: __, ...of } = prices.of;
    const longLived = {
      ...rig,
      budget: 1,
      fingers: rig.fingers.map((finger) => ({
        ...finger,
        potentiometer: { ...finger.potentiometer, ratedCycles: 100_000 },
      })),
    };
    const size = sizeParts(longLived, { ...prices, of });
    const precise = size.changes.find(({ what }) => what.startsWith('1 %'))!;
    expect(precise).toMatchObject({ cost: -0.75, missing: ['precise resistor'], addsUnpriced: true });
    expect(changeCostWords(precise, 'EUR')).toBe('not known: no price for precise resistor');
    expect(size.savings.map(({ what }) => what)).toEqual(['only thumb, index, middle to begin with']);
    expect(size.margins[0]!.cure).not.toContain('plain carbon');
  });
});
