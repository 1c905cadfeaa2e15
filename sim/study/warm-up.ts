import type { Hysteresis, LowPass, Settings } from '../../firmware/chain/settings.ts';
import { OVERSAMPLINGS } from './plan.ts';
import { TABLE_LENGTH, type Trace } from './trace-types.ts';

const FRAMES = 120;

/** One setting for every path through the evaluation. */
export function warmUpSettings(): Settings[] {
  const lowPasses: LowPass[] = [
    { kind: 'none' },
    { kind: 'exponential', cutoffHz: 5 },
    { kind: 'oneEuro', minCutoffHz: 1, beta: 1, speedCutoffHz: 1 },
    { kind: 'adaptive', restCutoffHz: 1, riseHz: 30 },
  ];
  const hystereses: Hysteresis[] = [
    { kind: 'still', widthPct: 1 },
    { kind: 'drag', widthPct: 1 },
    { kind: 'step', widthPct: 1 },
  ];
  return lowPasses.flatMap((lowPass, i) =>
    hystereses.map(
      (hysteresis): Settings => ({
        oversampling: 1,
        despike: i === 1 ? { kind: 'median' } : { kind: 'clip', limitPct: 10 },
        lowPass,
        hysteresis,
      }),
    ),
  );
}

/**
 * A trace of a second or so that goes through all scores. The evaluation's loops are long: without some short
 * calls first, the JavaScript engine may keep entering them through its slow path for good (seen in one run of
 * three, three times slower).
 */
export function warmUpTrace(): Trace {
  const readings = new Float64Array(FRAMES);
  const truth = new Float64Array(FRAMES);
  for (let f = 0; f < FRAMES; f++) {
    truth[f] = f < 60 ? 0.2 : f < 75 ? 0.2 + (f - 60) * 0.04 : 0.8;
    // Some unevenness, so that every branch is taken both ways.
    readings[f] = 0.2 + 0.5 * truth[f] + 0.01 * Math.sin(f * f) + (f === 30 ? 0.3 : 0);
  }
  const span = (from: number, to: number) => [{ from, to }];
  return {
    frames: FRAMES,
    periodS: 0.01,
    readings: OVERSAMPLINGS.map(() => readings),
    truth,
    ends: { open: 0.2, closed: 0.7 },
    closureTable: Float64Array.from({ length: TABLE_LENGTH }, (_, i) => i / (TABLE_LENGTH - 1)),
    windows: {
      rest: span(5, 50),
      open: span(40, 50),
      closed: span(90, 100),
      slow: span(55, 75),
      grasps: [{ from: 58, to: 85, middleFrame: 67.5, middle: 0.5, direction: 1, arrival: 75 }],
      spikes: span(30, 50),
    },
    deadShare: 0,
    gestureHalf: 0.05,
  };
}
