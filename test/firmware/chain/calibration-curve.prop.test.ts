import { curveMonotoneX } from 'd3-shape';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  buildCalibration,
  type Calibration,
  type CalibrationPoint,
  closureOf,
} from '../../../firmware/chain/calibration-curve.ts';

/** 2 to 9 points with rising or falling readings, level stretches and very uneven spacing. */
const capture: fc.Arbitrary<CalibrationPoint[]> = fc
  .tuple(
    fc.array(fc.tuple(fc.integer({ min: 1, max: 1000 }), fc.integer({ min: 0, max: 100 })), {
      minLength: 1,
      maxLength: 8,
    }),
    fc.boolean(),
    fc.integer({ min: -2000, max: 2000 }),
  )
  .map(([steps, falls, start]) => {
    const total = steps.reduce((sum, step) => sum + step[1], 0);
    let x = start;
    let risen = 0;
    const points = [{ x, closure: 0 }];
    for (const [width, rise] of steps) {
      x += falls ? -width : width;
      risen += rise;
      points.push({ x, closure: total > 0 ? risen / total : 0 });
    }
    points[points.length - 1].closure = 1;
    return points;
  });

function samples(calibration: Calibration, points: CalibrationPoint[], count: number): number[] {
  const first = points[0].x;
  const last = points[points.length - 1].x;
  return Array.from({ length: count + 1 }, (_, i) =>
    closureOf(calibration, first + ((last - first) * i) / count),
  );
}

describe('calibration curve', () => {
  it('never falls from open to closed and stays between 0 and 1', () => {
    fc.assert(
      fc.property(capture, (points) => {
        const closures = samples(buildCalibration(points, {}), points, 200);
        let worstFall = 0;
        for (let i = 1; i < closures.length; i++)
          worstFall = Math.max(worstFall, closures[i - 1] - closures[i]);
        // Rounding of the cubic: a ten-millionth of the smallest step that a frame can carry.
        expect(worstFall).toBeLessThanOrEqual(1e-12);
        expect(closures[0]).toBe(0);
        expect(closures[200]).toBe(1);
      }),
    );
  });

  it('goes through every captured point', () => {
    fc.assert(
      fc.property(capture, (points) => {
        const calibration = buildCalibration(points, {});
        for (const { x, closure } of points) expect(closureOf(calibration, x)).toBeCloseTo(closure, 12);
      }),
    );
  });

  it('keeps each stretch between its two points, like the other monotone slope rule that d3 uses', () => {
    fc.assert(
      fc.property(capture, (points) => {
        const calibration = buildCalibration(points, {});
        const other = d3Curve(points);
        for (let i = 1; i < points.length; i++) {
          const [from, to] = [points[i - 1], points[i]];
          for (const share of [0.1, 0.35, 0.5, 0.8]) {
            const x = from.x + share * (to.x - from.x);
            for (const closure of [closureOf(calibration, x), other(i, share)]) {
              expect(closure).toBeGreaterThanOrEqual(from.closure - 1e-9);
              expect(closure).toBeLessThanOrEqual(to.closure + 1e-9);
            }
          }
        }
      }),
    );
  });

  it('lies close to the d3 curve where the points follow a smooth bend', () => {
    const points = Array.from({ length: 9 }, (_, i) => ({
      x: i,
      closure: (1 - Math.cos((Math.PI * i) / 8)) / 2,
    }));
    const calibration = buildCalibration(points, {});
    const other = d3Curve(points);
    for (let i = 1; i < 9; i++)
      expect(Math.abs(closureOf(calibration, i - 0.5) - other(i, 0.5))).toBeLessThan(0.004);
  });
});

/** Closure of d3's curveMonotoneX at a share of stretch i; its control points sit at thirds, so x is linear. */
function d3Curve(points: CalibrationPoint[]): (stretch: number, share: number) => number {
  const pieces: ((t: number) => number)[] = [];
  let last = 0;
  const recorder = {
    moveTo: (_x: number, y: number) => {
      last = y;
    },
    lineTo: (_x: number, y: number) => {
      const from = last;
      pieces.push((t) => from + t * (y - from));
      last = y;
    },
    bezierCurveTo: (_x1: number, y1: number, _x2: number, y2: number, _x: number, y: number) => {
      const from = last;
      pieces.push(
        (t) => (1 - t) ** 3 * from + 3 * (1 - t) ** 2 * t * y1 + 3 * (1 - t) * t * t * y2 + t ** 3 * y,
      );
      last = y;
    },
  };
  const curve = curveMonotoneX(recorder as Parameters<typeof curveMonotoneX>[0]);
  curve.lineStart();
  for (const { x, closure } of points) curve.point(x, closure);
  curve.lineEnd();
  return (stretch, t) => pieces[stretch - 1](t);
}
