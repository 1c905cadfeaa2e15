import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TableRow, WhatIf } from '../../../sim/study/result.ts';
import { lagPlot } from '../../../workbench/report/lag-plot.ts';
import { restPlot } from '../../../workbench/report/rest-plot.ts';
import { tracePlot } from '../../../workbench/report/trace-plot.ts';
import { tradeOffPlot } from '../../../workbench/report/trade-off-plot.ts';
import { whatIfPlot } from '../../../workbench/report/what-if-plot.ts';
import { inventedResult } from './fixture.ts';
import { drawnPoints } from './svg-coordinates.ts';

const RUNS = { numRuns: process.env.TAUTLINE_VERIFY === '1' ? 2000 : 100 };
const invented = inventedResult();
const size = fc.constantFrom({ width: 350, height: 400 }, { width: 880, height: 520 });

/** Any score that a study could come up with, down to nothing and up to never. */
const score = fc.oneof(
  fc.double({ min: 0, max: 500, noNaN: true }),
  fc.double({ min: -9, max: 3, noNaN: true }).map((exponent) => 10 ** exponent),
  fc.constantFrom(0, Number.POSITIVE_INFINITY, Number.NaN),
);
const usual = fc.double({ min: 0, max: 500, noNaN: true });

function expectInside(svg: string): void {
  const { width, height, points } = drawnPoints(svg);
  expect(points.length).toBeGreaterThan(5);
  const outside = points.filter(([x, y]) => !(x >= 0 && x <= width && y >= 0 && y <= height));
  expect(outside).toEqual([]);
}

describe('drawings keep inside their frame', () => {
  it('jitter against lag', () => {
    const point = fc.record({ lagMs: score, jitterPct: score });
    fc.assert(
      fc.property(
        fc.array(point, { maxLength: 40 }),
        point,
        usual,
        usual,
        size,
        (points, pick, lag, jitter, frame) => {
          const table = points.map(
            (at): TableRow => ({ ...invented.table[0], scores: { ...invented.table[0].scores, ...at } }),
          );
          const value = (at: number, unit: string) => ({ value: at, low: at * 0.9, high: at * 1.2, unit });
          const scores = {
            ...invented.pick.scores,
            lagMs: value(pick.lagMs, 'ms'),
            jitterPct: value(pick.jitterPct, '%'),
          };
          const pareto = points.slice(0, 5).map((at) => ({ id: 'any', ...at }));
          const data = {
            table,
            pareto,
            pick: { ...invented.pick, scores },
            wishes: { lagMs: lag, jitterPct: jitter },
          };
          expectInside(tradeOffPlot(data, frame, 'any'));
        },
      ),
      RUNS,
    );
  });

  it('traces', () => {
    const sample = fc.oneof(fc.double({ min: -50, max: 150, noNaN: true }), fc.constant(Number.NaN));
    fc.assert(
      fc.property(fc.array(fc.tuple(sample, sample, sample), { maxLength: 60 }), size, (samples, frame) => {
        const traces = {
          finger: 'ring',
          draw: 1,
          timeMs: samples.map((_, index) => 1000 + index * 10),
          truthPct: samples.map((sample) => sample[0]),
          rawPct: samples.map((sample) => sample[1]),
          smoothedPct: samples.map((sample) => sample[2]),
        };
        expectInside(tracePlot(traces, frame, 'any'));
      }),
      RUNS,
    );
  });

  it('rest histograms', () => {
    const counts = fc.array(fc.nat(5000), { minLength: 20, maxLength: 20 });
    fc.assert(
      fc.property(
        counts,
        counts,
        usual,
        usual,
        fc.double({ min: 1e-6, max: 3, noNaN: true }),
        size,
        (raw, smoothed, a, b, bin, frame) => {
          const binEdgesPct = Array.from({ length: 21 }, (_, index) => (index - 10) * bin);
          const rest = { finger: 'thumb', binEdgesPct, raw, smoothed, rawSdPct: a, smoothedSdPct: b };
          expectInside(restPlot(rest, frame, 'any'));
        },
      ),
      RUNS,
    );
  });

  it('parts of the lag', () => {
    const part = fc.record({
      part: fc.string({ maxLength: 30 }),
      ms: fc.double({ min: -2, max: 80, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 9 }), usual, size, (parts, wishMs, frame) => {
        expectInside(lagPlot({ parts, wishMs }, frame.width, 'any'));
      }),
      RUNS,
    );
  });

  it('what-if bars', () => {
    const ends = fc.tuple(
      score,
      score,
      score,
      fc.constantFrom(-1, 1),
      fc.boolean(),
      fc.string({ maxLength: 200 }),
    );
    fc.assert(
      fc.property(fc.array(ends, { minLength: 1, maxLength: 9 }), size, (list, frame) => {
        const changes = list.map(([a, b, c, sign, clear, words]): WhatIf => {
          const [low, value, high] = [a * sign, b * sign, c * sign].sort((x, y) => x - y);
          return { ...invented.whatIf[0], change: words, clear, ratioChange: { value, low, high, unit: '' } };
        });
        expectInside(whatIfPlot(changes, frame.width, 'any'));
      }),
      RUNS,
    );
  });
});
