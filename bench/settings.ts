import { defaultRig } from '../sim/rig/default-rig.ts';
import { runDrawTask } from '../sim/study/draw-task.ts';
import { createEvaluator } from '../sim/study/evaluate.ts';
import { defaultGrid } from '../sim/study/grid.ts';
import { METRICS } from '../sim/study/metrics.ts';
import { createRunner } from '../sim/study/runner.ts';
import { createTracer } from '../sim/study/trace.ts';
import { evaluateSettings } from './baseline/evaluate.ts';
import { Random } from './baseline/random.ts';
import { createScenario } from './baseline/scenario.ts';
import { measure, ratios } from './measure.ts';
import type { Figure } from './print.ts';

const SEED = 7;
/** The baseline runs every 13th setting (13 shares no factor with the grid's sides), or a round would take half a minute. */
const BASELINE_STRIDE = 13;
const DRAWS_ON_TWO = 4;

const READY = 'product, traces ready';
const WHOLE = 'product, traces made';
const TWO = 'product, traces made, 2 workers';
const BASELINE = 'baseline';

/** Evaluations a second: one setting on one 20 s trace of one finger is one. */
export async function settings(repetitions: number): Promise<Figure[]> {
  const rig = defaultRig();
  const grid = defaultGrid();
  const sample = grid.filter((_, i) => i % BASELINE_STRIDE === 0);
  const tracer = createTracer(rig, SEED);
  const evaluator = createEvaluator(grid, tracer.frames);
  const rows = new Float64Array(grid.length * METRICS);
  const traces = rig.fingers.map((_, finger) => tracer.trace(0, finger));
  const scenarios = rig.fingers.map((_, finger) => createScenario(rig, SEED, 0, finger));
  const random = new Random(SEED);
  let draw = 0;
  const rates = await measure(
    [
      {
        impl: READY,
        run() {
          for (const trace of traces) evaluator.scoreAll(trace, rows);
          return traces.length * grid.length;
        },
      },
      {
        impl: WHOLE,
        run() {
          runDrawTask({ rig, seed: SEED, draws: [draw++], settings: grid });
          return rig.fingers.length * grid.length;
        },
      },
      {
        impl: BASELINE,
        run() {
          sample.forEach((s, i) => {
            evaluateSettings(scenarios[i % scenarios.length], s, random);
          });
          return sample.length;
        },
      },
    ],
    repetitions,
  );
  // By itself: it takes both cores, and no ratio is formed with it.
  const runner = createRunner(2);
  const onTwo = await measure(
    [
      {
        impl: TWO,
        async run() {
          const draws = Array.from({ length: DRAWS_ON_TWO }, () => draw++);
          await runner.run({ rig, seed: SEED, draws, settings: grid });
          return DRAWS_ON_TWO * rig.fingers.length * grid.length;
        },
      },
    ],
    repetitions,
  );
  await runner.close();
  const figures = [...rates, ...onTwo].map(([impl, values]) => ({
    bench: 'settings',
    impl,
    values,
    unit: 'evaluations/s',
  }));
  const compared = [READY, WHOLE].map((impl) => ({
    bench: 'settings',
    impl: `${impl} / ${BASELINE}`,
    values: ratios(rates, impl, BASELINE),
    unit: 'times',
  }));
  return [...figures, ...compared];
}
