import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { priceChange } from '../../../sim/sizing/parts/change-costs.ts';
import { PART_IDS, type Part } from '../../../sim/sizing/parts/part-catalogue.ts';
import { partsList } from '../../../sim/sizing/parts/parts-list.ts';
import { type Prices, priced } from '../../../sim/sizing/parts/prices.ts';

const RUNS = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 200;

const anyRig: fc.Arbitrary<Rig> = fc
  .record({
    fingers: fc.subarray([0, 1, 2, 3, 4], { minLength: 1 }),
    topOhm: fc.constantFrom(0, 1000, 4700, 5600),
    capacitorF: fc.constantFrom(0, 1e-8, 1e-7),
    tolerance: fc.constantFrom(0.01, 0.05),
    buttons: fc.integer({ min: 0, max: 4 }),
    divider: fc.option(fc.constantFrom(0.25, 0.5, 1)),
    hasCell: fc.boolean(),
  })
  .map(({ fingers, topOhm, capacitorF, tolerance, buttons, divider, hasCell }) => {
    const rig = defaultRig();
    rig.fingers = fingers.map((index) => rig.fingers[index]!);
    for (const { wiring } of rig.fingers)
      Object.assign(wiring, { topOhm, capacitorF, seriesTolerance: tolerance });
    if (buttons > 0) rig.buttons = [13, 14, 16, 17].slice(0, buttons);
    if (divider !== null) rig.rail = { pin: 39, divider };
    if (hasCell) rig.cell = { capacityMAh: 500 };
    return rig;
  });

/** Prices in whole hundredths of one unit, so that integers can check the sums. */
const anyCents = fc.dictionary(fc.constantFrom(...PART_IDS), fc.integer({ min: 0, max: 10_000 }), {
  maxKeys: PART_IDS.length,
  noNullPrototype: true,
});

function pricesOf(cents: Record<string, number>): Prices {
  const of = Object.fromEntries(Object.entries(cents).map(([id, amount]) => [id, { amount: amount / 100 }]));
  return { currency: 'x', date: '2026-11-25', source: 'test', of };
}

/** In hundredths; quantities are whole or halves, so twice each is a whole number. */
function centsOf(parts: Part[], cents: Record<string, number>): number {
  let sum = 0;
  for (const { id, quantity } of parts) sum += Math.floor((2 * quantity * (cents[id] ?? 0) + 1) / 2);
  return sum;
}

describe('prices', () => {
  it('sum up to the hundredth as whole numbers do', () => {
    fc.assert(
      fc.property(anyRig, fc.constantFrom(1, 2), anyCents, (rig, hands, cents) => {
        const parts = partsList(rig, hands as 1 | 2);
        expect(Math.round(100 * priced(parts, pricesOf(cents)).total)).toBe(centsOf(parts, cents));
      }),
      { numRuns: RUNS },
    );
  });

  it('of a change are the difference of the totals, and the way back costs the opposite', () => {
    fc.assert(
      fc.property(anyRig, anyRig, anyCents, (before, after, cents) => {
        const [from, to] = [partsList(before, 1), partsList(after, 1)];
        const prices = pricesOf(cents);
        const there = priceChange(from, to, prices);
        expect(Math.round(100 * there.cost)).toBe(centsOf(to, cents) - centsOf(from, cents));
        const back = priceChange(to, from, prices);
        expect(back.cost + there.cost).toBeCloseTo(0, 9);
        expect([...back.missing].sort()).toEqual([...there.missing].sort());
      }),
      { numRuns: RUNS },
    );
  });

  it('never fall when a second hand is built', () => {
    fc.assert(
      fc.property(anyRig, anyCents, (rig, cents) => {
        const prices = pricesOf(cents);
        const [one, two] = [priced(partsList(rig, 1), prices), priced(partsList(rig, 2), prices)];
        expect(two.total).toBeGreaterThanOrEqual(one.total);
        expect(two.lines.map(({ id }) => id)).toEqual(one.lines.map(({ id }) => id));
      }),
      { numRuns: RUNS },
    );
  });
});
