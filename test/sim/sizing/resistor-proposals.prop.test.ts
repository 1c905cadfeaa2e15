import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { dividerVolts } from '../../../sim/pot/divider.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { keys, uniformAt } from '../../../sim/seed/mix.ts';
import { resistorProposals } from '../../../sim/sizing/wiring/resistor-proposals.ts';
import { E12, E24, valuesOf } from '../../../sim/sizing/wiring/series.ts';
import { rigWith } from './rigs.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';
const DRAWS = 10_000;

/** Lowest and highest voltage over so many draws of every part, the supply and the wiper; every tenth draw an end. */
function drawn(rig: Rig, top: number, bottom: number, tolerance: number, seed: number, draws: number) {
  const { resistanceOhm, tolerance: potTolerance } = rig.fingers[0]!.potentiometer;
  const { pullDownOhm } = rig.fingers[0]!.wiring;
  const [k0, k1] = keys(7, seed, 0);
  let counter = 0;
  const spread = (nominal: number, share: number) => {
    const u = uniformAt(counter++, k0, k1);
    const sign = u < 0.1 ? -1 : u > 0.9 ? 1 : (u - 0.5) / 0.4;
    return nominal * (1 + share * sign);
  };
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < draws; i++) {
    const volts = dividerVolts(
      0.5 + spread(0.5, 1) - 0.5,
      // anywhere in its tolerance, and sagging by any part of its sag
      spread(rig.supply.volts, rig.supply.tolerance) * (1 - rig.supply.sag * spread(0.5, 1)),
      spread(resistanceOhm, potTolerance),
      spread(top, tolerance),
      spread(bottom, tolerance),
      pullDownOhm,
    );
    lowest = Math.min(lowest, volts);
    highest = Math.max(highest, volts);
  }
  return { lowest, highest };
}

describe('proposed resistors', () => {
  it.each(BOARD_IDS)(
    'on the %s never leave its range in 10 000 draws, and come close to its top',
    (board) => {
      const rig = rigWith({}, {}, board);
      const [low, high] = boardFacts(board).adcRangeMv;
      const [proposals] = resistorProposals(rig);
      expect(proposals!.fingers).toHaveLength(5);
      for (const { pair, tolerance } of proposals!.series) {
        const { lowest, highest } = drawn(rig, pair!.topOhm, pair!.bottomOhm, tolerance, 1, DRAWS);
        expect(1000 * lowest).toBeGreaterThanOrEqual(low);
        expect(1000 * highest).toBeLessThanOrEqual(high);
        // the draws do reach the corners that the pair was chosen for
        expect(highest / pair!.highestV).toBeGreaterThan(0.99);
        expect(lowest / pair!.lowestV).toBeLessThan(1.05);
      }
    },
  );

  it('never leave the range for any potentiometer, load and supply', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...BOARD_IDS),
        fc.constantFrom(1000, 5000, 10_000, 20_000, 50_000),
        fc.constantFrom(0.05, 0.1, 0.2, 0.3),
        fc.constantFrom(0, 47_000, 100_000, 1_000_000),
        fc.constantFrom(0, 0.02, 0.05),
        fc.integer({ min: 0, max: 1e6 }),
        (board, resistanceOhm, potTolerance, pullDownOhm, supplyTolerance, seed) => {
          const rig = rigWith({ pullDownOhm }, { resistanceOhm, tolerance: potTolerance }, board);
          rig.supply.tolerance = supplyTolerance;
          const [low, high] = boardFacts(board).adcRangeMv;
          for (const { pair, series, tolerance } of resistorProposals(rig)[0]!.series) {
            if (pair === null) continue;
            const { lowest, highest } = drawn(
              rig,
              pair.topOhm,
              pair.bottomOhm,
              tolerance,
              seed,
              LONG ? DRAWS : 300,
            );
            expect(1000 * lowest).toBeGreaterThanOrEqual(low);
            expect(1000 * highest).toBeLessThanOrEqual(high);
            const shop = [0, ...valuesOf(series === 'E12' ? E12 : E24, 100, 22_000)];
            expect(shop).toContain(pair.topOhm);
            expect(shop).toContain(pair.bottomOhm);
            // an open wiper stays visible where there is a resistor to ground
            if (pullDownOhm > 0) expect(pair.lowestV).toBeGreaterThanOrEqual(0.1);
          }
        },
      ),
      { numRuns: LONG ? 200 : 12 },
    );
  });

  it('without supply tolerance and load are the pairs computed by hand', () => {
    const rig = rigWith({ pullDownOhm: 0 });
    rig.supply = { volts: 3.3, tolerance: 0, sag: 0 };
    const [proposals] = resistorProposals(rig);
    const pairs = proposals!.series.map(({ pair }) => [pair!.topOhm, pair!.bottomOhm]);
    // E12 5 %, E24 5 %, E24 1 % for 0.15-2.45 V: see sizing.test.ts for the corners
    expect(pairs).toEqual([
      [5600, 1000],
      [5100, 910],
      [4700, 820],
    ]);
  });

  it('are told once for each wiring that differs', () => {
    const rig = rigWith({});
    rig.fingers[4]!.potentiometer.resistanceOhm = 5000;
    const proposals = resistorProposals(rig);
    expect(proposals.map(({ fingers }) => fingers)).toEqual([
      ['thumb', 'index', 'middle', 'ring'],
      ['little'],
    ]);
    expect(proposals[1]!.potOhm).toBe(5000);
  });

  it('say so where no pair fits', () => {
    const rig = rigWith({}, { tolerance: 0.5 });
    rig.supply.volts = 0.2;
    for (const { pair } of resistorProposals(rig)[0]!.series) expect(pair).toBeNull();
  });
});
