import { defaultRig } from '../sim/rig/default-rig.ts';
import { createTracer } from '../sim/study/trace.ts';
import type { Trace } from '../sim/study/trace-types.ts';
import { Random } from './baseline/random.ts';
import { simulateFinger } from './baseline/read-adc.ts';
import { createScenario } from './baseline/scenario.ts';
import { measure, ratios } from './measure.ts';
import type { Figure } from './print.ts';

const READS_PER_FRAME = 32;
const PRODUCT_TRACES = 100;
const BASELINE_TRACES = 20;
const SEED = 7;

/** ADC readings simulated a second: traces of 20 s at 100 Hz with 32 readings a frame. */
export async function simulate(repetitions: number): Promise<Figure[]> {
  const rig = defaultRig();
  const fingers = rig.fingers.length;
  const tracer = createTracer(rig, SEED);
  const readings = tracer.frames * READS_PER_FRAME;
  let trace: Trace | undefined;
  let draw = 0;
  const random = new Random(SEED);
  const rates = await measure(
    [
      {
        impl: 'product',
        run() {
          for (let i = 0; i < PRODUCT_TRACES; i++) trace = tracer.trace(draw++, i % fingers, trace);
          return PRODUCT_TRACES * readings;
        },
      },
      {
        impl: 'baseline',
        run() {
          for (let i = 0; i < BASELINE_TRACES; i++) {
            simulateFinger(createScenario(rig, SEED, draw++, i % fingers), READS_PER_FRAME, random);
          }
          return BASELINE_TRACES * readings;
        },
      },
    ],
    repetitions,
  );
  const figures = [...rates].map(([impl, values]) => ({
    bench: 'simulate',
    impl,
    values,
    unit: 'readings/s',
  }));
  const compared = ratios(rates, 'product', 'baseline');
  return [...figures, { bench: 'simulate', impl: 'product / baseline', values: compared, unit: 'times' }];
}
