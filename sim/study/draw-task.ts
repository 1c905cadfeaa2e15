import type { Settings } from '../../firmware/chain/settings.ts';
import { createRestNoise } from '../adc/rest-noise.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { createEvaluator } from './evaluate.ts';
import { addedLag, combineFingers, HAND_SCORES } from './hand-scores.ts';
import { METRICS } from './metrics.ts';
import { createTracer } from './trace.ts';
import type { Trace } from './trace-types.ts';

/** Settings to be run over draws of one rig. Plain data, so that it can cross to a worker. */
export interface DrawTask {
  rig: Rig;
  rest?: RestRecording;
  seed: number;
  draws: number[];
  settings: Settings[];
}

/**
 * Runs a task.
 * @returns [draw][setting] rows of HAND_SCORES numbers; each draw depends on nothing but the seed and its number
 */
export function runDrawTask(task: DrawTask): Float64Array {
  const { rig, seed, draws, settings } = task;
  const tracer = createTracer(rig, seed, task.rest && createRestNoise(task.rest));
  const evaluator = createEvaluator(settings, tracer.frames);
  const added = settings.map((s) => addedLag(s, rig));
  const rows = rig.fingers.map(() => new Float64Array(settings.length * METRICS));
  const width = settings.length * HAND_SCORES;
  const out = new Float64Array(draws.length * width);
  let trace: Trace | undefined;
  draws.forEach((draw, d) => {
    rig.fingers.forEach((_, finger) => {
      trace = tracer.trace(draw, finger, trace);
      evaluator.scoreAll(trace, rows[finger]);
    });
    combineFingers(rows, added, rig, out.subarray(d * width, (d + 1) * width));
  });
  return out;
}
