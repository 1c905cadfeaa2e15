import type { Despike, Hysteresis, LowPass, Oversampling, Settings } from '../../firmware/chain/settings.ts';

const OVERSAMPLING: Oversampling[] = [2, 4, 8, 16, 32];

const DESPIKES: Despike[] = [{ kind: 'none' }, { kind: 'clip', limitPct: 10 }, { kind: 'median' }];

const LOW_PASSES: LowPass[] = [
  { kind: 'none' },
  ...[1, 2, 4, 6, 10, 16].map((cutoffHz): LowPass => ({ kind: 'exponential', cutoffHz })),
  ...cross([0.5, 1, 2, 4], [0.3, 1, 3, 10]).map(
    ([minCutoffHz, beta]): LowPass => ({ kind: 'oneEuro', minCutoffHz, beta, speedCutoffHz: 1 }),
  ),
  ...cross([0.5, 1, 2, 4, 6], [3, 10, 30, 100, 300]).map(
    ([restCutoffHz, riseHz]): LowPass => ({ kind: 'adaptive', restCutoffHz, riseHz }),
  ),
];

const HYSTERESES: Hysteresis[] = [
  { kind: 'none' },
  { kind: 'still', widthPct: 0.5 },
  { kind: 'still', widthPct: 1 },
  { kind: 'still', widthPct: 2 },
  { kind: 'drag', widthPct: 0.5 },
  { kind: 'drag', widthPct: 1 },
  { kind: 'step', widthPct: 1 },
];

function cross(first: number[], second: number[]): [number, number][] {
  return first.flatMap((a) => second.map((b): [number, number] => [a, b]));
}

/** The settings that `choose` and `sweep` look through: every combination, the simplest first. */
export function defaultGrid(): Settings[] {
  const all: Settings[] = [];
  for (const oversampling of OVERSAMPLING) {
    for (const despike of DESPIKES) {
      for (const lowPass of LOW_PASSES) {
        for (const hysteresis of HYSTERESES) all.push({ oversampling, despike, lowPass, hysteresis });
      }
    }
  }
  return all;
}
