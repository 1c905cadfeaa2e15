import { describe, expect, it } from 'vitest';
import { createEvaluator } from '../../../sim/study/evaluate.ts';
import { defaultGrid } from '../../../sim/study/grid.ts';
import { METRIC, METRICS } from '../../../sim/study/metrics.ts';
import { createTracer } from '../../../sim/study/trace.ts';
import { idealRig } from './traces.ts';

describe('jitter at rest', () => {
  it('holds no settling: with nothing but tremor, every filter of a usable lag is as calm as the unsmoothed one', () => {
    const grid = defaultGrid();
    const tracer = createTracer(idealRig(), 1);
    const rows = new Float64Array(grid.length * METRICS);
    createEvaluator(grid, tracer.frames).scoreAll(tracer.trace(0, 0), rows);
    const of = (index: number, metric: number) => rows[index * METRICS + metric];
    const plain = grid.findIndex((s) => s.lowPass.kind === 'none' && s.hysteresis.kind === 'none');
    // Tremor of 0.05° peak on 90° is 0.04 % of closure rms.
    expect(of(plain, METRIC.jitter)).toBeLessThan(0.0005);
    let usable = 0;
    grid.forEach((settings, i) => {
      // A band turns the last bit of settling into a real jump, which counts.
      if (settings.hysteresis.kind !== 'none') return;
      // 6 frames: 60 ms
      if (of(i, METRIC.lag) >= 6) return;
      usable++;
      // A creeping filter used to show 0.1 %.
      expect(of(i, METRIC.jitter), JSON.stringify(grid[i])).toBeLessThan(of(plain, METRIC.jitter) + 0.0002);
    });
    expect(usable).toBeGreaterThan(300);
  });
});
