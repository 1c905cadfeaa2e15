import type { Settings } from '../../firmware/chain/settings.ts';
import { createRestNoise } from '../adc/rest-noise.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { createEvaluator } from './evaluate.ts';
import { METRIC, METRICS } from './metrics.ts';
import type { ExampleTraces, RestHistogram } from './result.ts';
import { quantile } from './stats/quantile.ts';
import { createTracer } from './trace.ts';
import type { Trace } from './trace-types.ts';

/** Settings that pass every reading on as it comes: what `raw` means in plots. */
const RAW: Settings = {
  oversampling: 1,
  despike: { kind: 'none' },
  lowPass: { kind: 'none' },
  hysteresis: { kind: 'none' },
};
const BEFORE_GRASP_FRAMES = 10;
const HISTOGRAM_BINS = 41;

/** Pictures of one draw: the fastest grasp and the rest of the finger that lags most. */
export function exampleOf(
  rig: Rig,
  rest: RestRecording | undefined,
  seed: number,
  draw: number,
  settings: Settings,
): { example: ExampleTraces; rest: RestHistogram; lagMs: number } {
  const tracer = createTracer(rig, seed, rest && createRestNoise(rest));
  const evaluator = createEvaluator([settings, RAW], tracer.frames);
  const rows = new Float64Array(2 * METRICS);
  let worst: { finger: number; trace: Trace; lag: number } | undefined;
  rig.fingers.forEach((_, finger) => {
    const trace = tracer.trace(draw, finger);
    evaluator.scoreAll(trace, rows);
    const lag = rows[METRIC.lag];
    if (!worst || lag > worst.lag) worst = { finger, trace, lag };
  });
  const { finger, trace, lag } = worst as NonNullable<typeof worst>;
  const smoothed = evaluator.closures(trace, 0);
  const raw = evaluator.closures(trace, 1);
  const grasp = trace.windows.grasps[0];
  const from = grasp.from - BEFORE_GRASP_FRAMES;
  const frames = Array.from({ length: grasp.to - from }, (_, i) => from + i);
  const percent = (values: Float64Array) => frames.map((f) => round(100 * values[f]));
  const name = rig.fingers[finger].name;
  return {
    lagMs: lag * trace.periodS * 1000,
    example: {
      finger: name,
      draw,
      timeMs: frames.map((f) => round((f - grasp.from) * trace.periodS * 1000)),
      truthPct: percent(trace.truth),
      rawPct: percent(raw),
      smoothedPct: percent(smoothed),
    },
    rest: histogram(name, trace, raw, smoothed),
  };
}

function histogram(finger: string, trace: Trace, raw: Float64Array, smoothed: Float64Array): RestHistogram {
  const rawRest = residuals(trace, raw);
  const smoothedRest = residuals(trace, smoothed);
  // Rare spikes go into the end bins instead of squeezing everything else into the middle one.
  const reach = Math.max(1.3 * quantile(rawRest.map(Math.abs), 0.99), 1e-3);
  const width = (2 * reach) / HISTOGRAM_BINS;
  const count = (values: number[]) => {
    const bins = new Array<number>(HISTOGRAM_BINS).fill(0);
    for (const v of values) {
      const bin = Math.min(HISTOGRAM_BINS - 1, Math.max(0, Math.floor((v + reach) / width)));
      bins[bin]++;
    }
    return bins;
  };
  const sd = (values: number[]) => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);
  return {
    finger,
    binEdgesPct: Array.from({ length: HISTOGRAM_BINS + 1 }, (_, i) => round(i * width - reach)),
    raw: count(rawRest),
    smoothed: count(smoothedRest),
    rawSdPct: round(sd(rawRest)),
    smoothedSdPct: round(sd(smoothedRest)),
  };
}

/** % of closure about the mean of each rest. */
function residuals(trace: Trace, closure: Float64Array): number[] {
  const all: number[] = [];
  for (const { from, to } of trace.windows.rest) {
    let sum = 0;
    for (let f = from; f < to; f++) sum += closure[f];
    const mean = sum / (to - from);
    for (let f = from; f < to; f++) all.push(100 * (closure[f] - mean));
  }
  return all;
}

/** Plot data need no more than four decimals. */
function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}
