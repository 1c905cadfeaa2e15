import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import {
  chainParts,
  frameCost,
  frameShare,
  type PartCounts,
  programInstructions,
} from '../../../firmware/boards/cost.ts';
import { COST_FIGURES } from '../../../firmware/boards/cost-figures.ts';
import type {
  Despike,
  Hysteresis,
  LowPass,
  Oversampling,
  Settings,
} from '../../../firmware/chain/settings.ts';

const NONE: Settings = {
  oversampling: 8,
  despike: { kind: 'none' },
  lowPass: { kind: 'none' },
  hysteresis: { kind: 'none' },
};
const DESPIKES: Despike[] = [{ kind: 'none' }, { kind: 'clip', limitPct: 5 }, { kind: 'median' }];
const LOW_PASSES: LowPass[] = [
  { kind: 'none' },
  { kind: 'exponential', cutoffHz: 5 },
  { kind: 'adaptive', restCutoffHz: 1, riseHz: 20 },
  { kind: 'oneEuro', minCutoffHz: 1, beta: 1, speedCutoffHz: 1 },
];
const BANDS: Hysteresis[] = [
  { kind: 'none' },
  { kind: 'still', widthPct: 1 },
  { kind: 'drag', widthPct: 1 },
  { kind: 'step', widthPct: 1 },
];
const [, clip] = DESPIKES;
const [, , adaptive] = LOW_PASSES;
const [, still] = BANDS;

const [, , , oneEuroPass] = LOW_PASSES;

/** Chain and frame alone: no main loop, no wiper checks. */
function alone(settings: Partial<Settings>, change: PartCounts = {}): PartCounts {
  return { ...chainParts({ ...NONE, ...settings, fingers: 5 }), main: 0, wiperCheck: 0, ...change };
}

/*
 * Whole frame programs measured on the interpreter (Linux build 2v29.277 of espruino/Espruino c5ff787, RELEASE=1, callgrind,
 * slope over frames, all fingers moving), 5 fingers, thousand instructions: what `npm run measure:board` printed.
 * Programs with several stages were not used to work out the figures of single ones, except the first two.
 */
const MEASURED: [string, PartCounts, number][] = [
  ['acquire 40 readings and write 20 bytes', { frame: 1, acquire: 40 }, 191],
  ['no stage', alone({}), 524],
  ['adaptive filter merged with the band', alone({ lowPass: adaptive, hysteresis: still }), 689],
  ['... with clip', alone({ lowPass: adaptive, hysteresis: still, despike: clip }), 761],
  [
    '... with clip, words not kept in their range',
    alone({ lowPass: adaptive, hysteresis: still, despike: clip }, { saturate: 0 }),
    703,
  ],
  [
    '... with clip, 4 readings',
    alone({ oversampling: 4, lowPass: adaptive, hysteresis: still, despike: clip }),
    689,
  ],
  [
    'clip, adaptive, drag with still band',
    alone({ despike: clip, lowPass: adaptive, hysteresis: { kind: 'drag', widthPct: 1, stillPct: 1 } }),
    948,
  ],
  [
    'clip, one euro, drag with still band',
    alone({ despike: clip, lowPass: oneEuroPass, hysteresis: { kind: 'drag', widthPct: 1, stillPct: 1 } }),
    1117,
  ],
  [
    'the whole program',
    chainParts({ ...NONE, lowPass: adaptive, hysteresis: still, despike: clip, fingers: 5 }),
    986,
  ],
];

describe('frame cost', () => {
  it.each(MEASURED)('%s: within 8 %% of the measured program', (_, counts, thousands) => {
    expect(Math.abs(programInstructions(counts) / (thousands * 1000) - 1)).toBeLessThan(0.08);
  });

  it('turns the merged chain on an ESP32 into about 2.9 ms of processor and 1.47 ms of ADC', () => {
    const cost = frameCost({ ...NONE, lowPass: adaptive, hysteresis: still, fingers: 5 });
    // (986 k less five clips of 13.2 k) · 0.77 / 240 MHz; 40 · 36.8 µs
    expect(cost.cpuMs).toBeCloseTo(2.95, 1);
    expect(cost.adcUs).toBeCloseTo(1472, 6);
    expect(cost.totalMs).toBeCloseTo(cost.cpuMs + 1.472, 9);
  });

  it('is a share of the frame time', () => {
    const settings = { ...NONE, lowPass: adaptive, hysteresis: still };
    const { totalMs } = frameCost({ ...settings, fingers: 5 }, 'esp32-c3');
    expect(frameShare(settings, 5, 'esp32-c3', 100)).toBeCloseTo(totalMs / 10, 9);
    expect(frameShare(settings, 5, 'esp32', 100)).toBeCloseTo(0.44, 1);
  });

  it('rises with oversampling, with fingers, with every added stage, and on the slower board', () => {
    const cost = (change: Partial<Settings>, fingers = 5) =>
      frameCost({ ...NONE, ...change, fingers }).totalMs;
    const steps: Oversampling[] = [1, 2, 4, 8, 16, 32];
    for (const despike of DESPIKES)
      for (const lowPass of LOW_PASSES)
        for (const hysteresis of BANDS) {
          const chain = { despike, lowPass, hysteresis };
          for (let i = 1; i < steps.length; i++)
            expect(cost({ ...chain, oversampling: steps[i] })).toBeGreaterThan(
              cost({ ...chain, oversampling: steps[i - 1] }),
            );
          for (let fingers = 2; fingers <= 5; fingers++)
            expect(cost(chain, fingers)).toBeGreaterThan(cost(chain, fingers - 1));
          for (const part of ['despike', 'lowPass', 'hysteresis'] as const)
            if (chain[part].kind !== 'none')
              expect(cost(chain)).toBeGreaterThan(cost({ ...chain, [part]: { kind: 'none' } }));
        }
    expect(frameCost({ ...NONE, fingers: 5 }, 'esp32-c3').totalMs).toBeGreaterThan(
      frameCost({ ...NONE, fingers: 5 }, 'esp32').totalMs,
    );
    expect(BANDS.length * LOW_PASSES.length * DESPIKES.length).toBe(48);
  });

  it('says of every figure whether it was measured or derived, and from what', () => {
    for (const figure of Object.values(COST_FIGURES)) {
      expect(['measured', 'derived']).toContain(figure.status);
      expect(figure.origin.length).toBeGreaterThan(20);
      expect(figure.instructions).toBeGreaterThan(0);
    }
    expect(BOARD_IDS.map((board) => frameCost({ ...NONE, fingers: 5 }, board).instructions)).toEqual(
      new Array(3).fill(frameCost({ ...NONE, fingers: 5 }).instructions),
    );
  });
});
