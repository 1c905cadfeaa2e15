import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividerVolts } from '../../../sim/pot/divider.ts';
import { toleranced } from '../../../sim/pot/tolerance.ts';
import { cellCurrentMA, hoursOnCell } from '../../../sim/sizing/power/power.ts';
import { cornerVolts, type Divider, nominalSpanV } from '../../../sim/sizing/wiring/corners.ts';
import { proposeResistors } from '../../../sim/sizing/wiring/resistors.ts';
import { E12, E24, valuesOf } from '../../../sim/sizing/wiring/series.ts';
import { evenly } from '../evenly.ts';

const RUNS = process.env.TAUTLINE_VERIFY === '1' ? 10_000 : 500;
const ESP32 = [0.15, 2.45] as const;

function divider(more: Partial<Divider> = {}): Divider {
  return {
    potOhm: 10_000,
    potTolerance: 0.2,
    topOhm: 0,
    bottomOhm: 0,
    seriesTolerance: 0.05,
    pullDownOhm: 0,
    supplyV: 3.3,
    supplyTolerance: 0,
    ...more,
  };
}

describe('preferred values', () => {
  // IEC 60063
  it('are the 12 and 24 of a decade, 43 among them', () => {
    expect(valuesOf(E12, 1000, 9999)).toEqual([
      1000, 1200, 1500, 1800, 2200, 2700, 3300, 3900, 4700, 5600, 6800, 8200,
    ]);
    expect(valuesOf(E24, 1000, 9999)).toHaveLength(24);
    expect(E24).toContain(43);
    // steps of about 10^(1/24)
    for (let i = 1; i < 24; i++) expect(Math.abs(E24[i]! / E24[i - 1]! - 10 ** (1 / 24))).toBeLessThan(0.06);
  });
});

describe('resistors for 10 k ±20 % at 3.3 V', () => {
  // computed by hand: 3.3 V · 950/(5880 + 12000 + 950) and 3.3 V · 13050/(5320 + 12000 + 1050) and so on
  it.each([
    ['ESP32, E12 5 %', ESP32, E12, 0.05, true, 5600, 1000, 0.1665, 2.3443, 1.988],
    ['ESP32, E24 5 %', ESP32, E24, 0.05, true, 5100, 910, 0.1566, 2.4018, 2.061],
    ['ESP32, E24 1 %', ESP32, E24, 0.01, true, 4700, 820, 0.1526, 2.4216, 2.126],
    ['ESP32-S3, open wipers visible', [0, 2.9], E12, 0.05, true, 2200, 560, 0.1183, 2.8301, 2.586],
    ['ESP32-C3, open wipers visible', [0, 2.5], E12, 0.05, true, 4700, 560, 0.1005, 2.436, 2.163],
    ['ESP32-S3 to 2.9 V, E12 5 %', [0, 2.9], E12, 0.05, false, 1800, 0, 0, 2.8884, 2.797],
    ['ESP32-C3 to 2.5 V, E12 5 %', [0, 2.5], E12, 0.05, false, 4700, 0, 0, 2.4051, 2.245],
  ] as const)('%s', (_, range, series, seriesTolerance, visible, top, bottom, low, high, span) => {
    const pair = proposeResistors(divider({ seriesTolerance }), range, series, visible)!;
    expect([pair.topOhm, pair.bottomOhm]).toEqual([top, bottom]);
    expect(pair.lowestV).toBeCloseTo(low, 4);
    expect(pair.highestV).toBeCloseTo(high, 4);
    expect(pair.spanV).toBeCloseTo(span, 3);
  });

  it('never 4.7 k with 1 k at 5 %: right nominally (2.312 V), but 2.4587 V in a corner', () => {
    const tried = divider({ topOhm: 4700, bottomOhm: 1000 });
    expect(dividerVolts(1, 3.3, 10_000, 4700, 1000, 0)).toBeCloseTo(2.312, 3);
    expect(cornerVolts(tried).highestV).toBeCloseTo(2.4587, 4);
  });

  it('with 100 k to ground stay inside: 0.1650-2.2589 V for 5.6 k and 1 k', () => {
    const { lowestV, highestV } = cornerVolts(
      divider({ topOhm: 5600, bottomOhm: 1000, pullDownOhm: 100_000 }),
    );
    expect(lowestV).toBeCloseTo(0.165, 4);
    expect(highestV).toBeCloseTo(2.2589, 4);
  });

  it('are refused where nothing fits', () => {
    expect(proposeResistors(divider(), [1.6, 1.7], E24, true)).toBeUndefined();
  });

  it('never leave the range, whatever the parts turn out to be', () => {
    const supplyTolerance = 0.03;
    const asked = divider({ pullDownOhm: 100_000, supplyTolerance });
    const pair = proposeResistors(asked, ESP32, E24, true)!;
    const draw = evenly(-1, 1);
    fc.assert(
      fc.property(draw, draw, draw, draw, evenly(0, 1), (pot, top, bottom, supply, x) => {
        const volts = dividerVolts(
          x,
          toleranced(3.3, supplyTolerance, supply),
          toleranced(10_000, 0.2, pot),
          toleranced(pair.topOhm, 0.05, top),
          toleranced(pair.bottomOhm, 0.05, bottom),
          100_000,
        );
        expect(volts).toBeGreaterThanOrEqual(ESP32[0]);
        expect(volts).toBeLessThanOrEqual(ESP32[1]);
      }),
      { numRuns: RUNS },
    );
    expect(nominalSpanV({ ...asked, ...pair })).toBeCloseTo(pair.spanV, 12);
  });
});

describe('a cell', () => {
  // 500 mAh · 0.85 / I; 100 mA · 3.3 V / (3.7 V · 0.9): by hand
  it('of 500 mAh lasts 4.25 h at 100 mA and 7.08 h at 60 mA; a regulator takes 99.1 mA for 100', () => {
    expect(hoursOnCell(500, 0.85, 100)).toBeCloseTo(4.25, 2);
    expect(hoursOnCell(500, 0.85, 60)).toBeCloseTo(7.08, 2);
    expect(cellCurrentMA(100, 3.3, 3.7, 0.9)).toBeCloseTo(99.1, 1);
  });
});
