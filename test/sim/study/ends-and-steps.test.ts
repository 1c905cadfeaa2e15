import { describe, expect, it } from 'vitest';
import { defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import { createEvaluator } from '../../../sim/study/evaluate.ts';
import { createTracer } from '../../../sim/study/trace.ts';
import { plain } from './any-settings.ts';
import { scoresOf } from './made-trace.ts';
import { idealRig, SILENCE } from './traces.ts';

const DRAWS = process.env.TAUTLINE_VERIFY === '1' ? 60 : 8;
const SEED = 5;

describe('ends and slow motion', () => {
  const fast = [
    plain({ oversampling: 8 }),
    plain({ oversampling: 8, lowPass: { kind: 'exponential', cutoffHz: 6 } }),
    plain({ oversampling: 8, hysteresis: { kind: 'drag', widthPct: 1 } }),
    plain({
      oversampling: 8,
      lowPass: { kind: 'adaptive', restCutoffHz: 2, riseHz: 100 },
      hysteresis: { kind: 'drag', widthPct: 1 },
    }),
  ];

  // Users needed the very ends in spite of noise and hysteresis: opiopan/fsmapper#13.
  it.each(['quiet', 'typical'] as const)(
    'reaches exactly 0 and 1 with %s noise, also with a band that is dragged',
    (preset) => {
      const rig = { ...defaultRig(), noise: noisePreset(preset) };
      const tracer = createTracer(rig, SEED);
      const evaluator = createEvaluator(fast, tracer.frames);
      for (let draw = 0; draw < DRAWS; draw++) {
        const trace = tracer.trace(draw, draw % 5);
        fast.forEach((_, i) => {
          const closure = evaluator.closures(trace, i);
          const part = (w: { from: number; to: number }) => Array.from(closure.subarray(w.from, w.to));
          for (const w of trace.windows.open) expect(Math.min(...part(w))).toBe(0);
          for (const w of trace.windows.closed) expect(Math.max(...part(w))).toBe(1);
        });
      }
    },
  );

  // A filter against jitter that turns slow motion into micro-steps: EdgeTX/edgetx#868.
  it('shows the micro-steps of a wide still or step band, about half its width each', () => {
    const wide = [0, 1, 2, 4].map((widthPct) =>
      plain({ oversampling: 32, hysteresis: widthPct > 0 ? { kind: 'still', widthPct } : { kind: 'none' } }),
    );
    const step = plain({ oversampling: 32, hysteresis: { kind: 'step', widthPct: 4 } });
    const drag = plain({ oversampling: 32, hysteresis: { kind: 'drag', widthPct: 4 } });
    const tracer = createTracer(idealRig({}, { noise: { ...SILENCE, sdCounts: 1.1 } }), SEED);
    for (let draw = 0; draw < DRAWS; draw++) {
      const [none, ...bands] = scoresOf(tracer.trace(draw, 0), ...wide, step, drag).map((s) => s.step);
      // The sweep moves 0.15 % a frame: a jump leaves the band by up to that, plus noise.
      expect(none).toBeLessThan(0.003);
      for (const [i, half] of [0.005, 0.01, 0.02].entries()) {
        expect(bands[i]).toBeGreaterThan(half - 0.002);
        expect(bands[i]).toBeLessThan(half + 0.004);
      }
      expect(bands[3]).toBeGreaterThan(0.018);
      expect(bands[4]).toBeLessThan(0.003);
    }
  });
});
