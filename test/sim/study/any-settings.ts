import fc from 'fast-check';
import type {
  Despike,
  Hysteresis,
  LowPass,
  Oversampling,
  Settings,
} from '../../../firmware/chain/settings.ts';
import { evenly } from '../evenly.ts';

const oversampling = fc.constantFrom<Oversampling>(1, 2, 4, 8, 16, 32);

const despike: fc.Arbitrary<Despike> = fc.oneof(
  fc.constant<Despike>({ kind: 'none' }),
  evenly(0.5, 60).map((limitPct): Despike => ({ kind: 'clip', limitPct })),
  fc.constant<Despike>({ kind: 'median' }),
);

const lowPass: fc.Arbitrary<LowPass> = fc.oneof(
  fc.constant<LowPass>({ kind: 'none' }),
  // Up to above half the frame rate of 100 Hz, where the filter lets everything through.
  evenly(0.2, 60).map((cutoffHz): LowPass => ({ kind: 'exponential', cutoffHz })),
  fc.tuple(evenly(0.1, 10), evenly(0, 20), evenly(0.2, 5)).map(
    ([minCutoffHz, beta, speedCutoffHz]): LowPass => ({
      kind: 'oneEuro',
      minCutoffHz,
      beta,
      speedCutoffHz,
    }),
  ),
  fc
    .tuple(evenly(0.1, 10), evenly(0, 300))
    .map(([restCutoffHz, riseHz]): LowPass => ({ kind: 'adaptive', restCutoffHz, riseHz })),
);

const widthPct = evenly(0.05, 12);
const hysteresis: fc.Arbitrary<Hysteresis> = fc.oneof(
  fc.constant<Hysteresis>({ kind: 'none' }),
  widthPct.map((w): Hysteresis => ({ kind: 'still', widthPct: w })),
  widthPct.map((w): Hysteresis => ({ kind: 'drag', widthPct: w })),
  widthPct.map((w): Hysteresis => ({ kind: 'step', widthPct: w })),
);

/** Settings of every kind, all kinds equally likely. */
export const anySettings: fc.Arbitrary<Settings> = fc.record({ oversampling, despike, lowPass, hysteresis });

/** The chain that passes every reading on. */
export function plain(parts: Partial<Settings> = {}): Settings {
  return {
    oversampling: 1,
    despike: { kind: 'none' },
    lowPass: { kind: 'none' },
    hysteresis: { kind: 'none' },
    ...parts,
  };
}
