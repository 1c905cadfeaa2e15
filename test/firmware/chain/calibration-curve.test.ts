import { describe, expect, it } from 'vitest';
import {
  buildCalibration,
  type CalibrationPoint,
  closureOf,
  fillTable,
} from '../../../firmware/chain/calibration-curve.ts';
import { SLIDE_POT } from './slide-pot-data.ts';

function points(x: number[], closure: number[]): CalibrationPoint[] {
  return x.map((value, i) => ({ x: value, closure: closure[i] }));
}

const BENT = points([0, 0.25, 0.5, 0.75, 1], [0, 0.1, 0.35, 0.7, 1]);

describe('closureOf', () => {
  // SciPy 1.17.1 PchipInterpolator(x, y)(at).
  it.each([
    [
      'evenly spaced points',
      BENT,
      [0.125, 0.375, 0.625, 0.875],
      [0.035267857142857156, 0.2063988095238095, 0.5210737179487178, 0.8560096153846153],
    ],
    [
      'uneven points with a level stretch',
      points([0.1, 0.15, 0.4, 0.55, 0.9, 1.3], [0, 0.2, 0.2, 0.35, 0.9, 1]),
      [0.11, 0.125, 0.2, 0.45, 0.5, 0.6, 0.8, 1.0, 1.29],
      [
        0.05066666666666665, 0.12916666666666665, 0.2, 0.22569944044764187, 0.284732214228617,
        0.4213880706294698, 0.7928181728788235, 0.9402873117803366, 0.9999224950177148,
      ],
    ],
    [
      'a sudden step',
      points([0, 0.25, 0.5, 0.75, 1], [0, 0, 0, 1, 1]),
      [0.125, 0.375, 0.6, 0.625, 0.7, 0.875],
      [0, 0, 0.35199999999999987, 0.5, 0.8959999999999997, 1],
    ],
    [
      'three points with a sharp bend',
      points([0, 1, 1.1], [0, 0.05, 1]),
      [0.1, 0.5, 0.9, 1.02, 1.08],
      [
        0.0001737940026075619, 0.007969361147327249, 0.03756414602346806, 0.11739484650942278,
        0.7690396207182648,
      ],
    ],
  ])('through %s agrees with SciPy', (_, pairs, at, expected) => {
    const calibration = buildCalibration(pairs, {});
    expected.forEach((value, i) => {
      expect(closureOf(calibration, at[i])).toBeCloseTo(value, 13);
    });
  });

  it('with two points is the straight line through them', () => {
    const line = buildCalibration(points([200, 1000], [0, 1]), {});
    for (const x of [201, 300, 512.5, 700, 999]) expect(closureOf(line, x)).toBeCloseTo((x - 200) / 800, 14);
  });

  it('is exactly 0 and 1 at the ends and beyond', () => {
    const calibration = buildCalibration(points([0.1, 0.37, 0.7], [0, 0.3, 1]), {});
    for (const x of [0.1, 0.09999, -5, Number.NEGATIVE_INFINITY]) expect(closureOf(calibration, x)).toBe(0);
    for (const x of [0.7, 0.70001, 5, Number.POSITIVE_INFINITY]) expect(closureOf(calibration, x)).toBe(1);
    expect(closureOf(calibration, Number.NaN)).toBeNaN();
  });

  it('takes a reading within half a resolution step of an end as the end', () => {
    const calibration = buildCalibration(points([100, 900], [0, 1]), { step: 4 });
    expect(closureOf(calibration, 102)).toBe(0);
    expect(closureOf(calibration, 102.01)).toBeCloseTo(2.01 / 800, 12);
    expect(closureOf(calibration, 898)).toBe(1);
    expect(closureOf(calibration, 897.99)).toBeCloseTo(1 - 2.01 / 800, 12);
  });

  it('with falling readings mirrors the curve of rising ones', () => {
    const rising = buildCalibration(BENT, { step: 0.01 });
    const falling = buildCalibration(
      BENT.map(({ x, closure }) => ({ x: -x, closure })),
      { step: 0.01 },
    );
    for (let x = -0.1; x <= 1.1; x += 0.013) {
      expect(closureOf(falling, -x)).toBeCloseTo(closureOf(rising, x), 14);
    }
    expect(closureOf(falling, -0.005)).toBe(0);
    expect(closureOf(falling, -0.995)).toBe(1);
  });

  it('puts the curve of the chip before its own', () => {
    // A chip that reads the square root of the voltage: its inverse straightens the line again.
    const chipCurve = (counts: number): number => (counts / 1000) ** 2;
    const calibration = buildCalibration(points([200, 600, 1000], [0, (0.36 - 0.04) / 0.96, 1]), {
      chipCurve,
    });
    for (const counts of [250, 400, 777]) {
      expect(closureOf(calibration, counts)).toBeCloseTo((chipCurve(counts) - 0.04) / 0.96, 13);
    }
    expect(closureOf(calibration, 200)).toBe(0);
    expect(closureOf(calibration, 1000)).toBe(1);
  });

  it('takes a chip curve that falls', () => {
    const calibration = buildCalibration(points([1, 3, 4], [0, 0.5, 1]), { chipCurve: (x) => -x });
    const plain = buildCalibration(points([1, 3, 4], [0, 0.5, 1]), {});
    for (const x of [1, 1.5, 2.9, 3.3, 4])
      expect(closureOf(calibration, x)).toBeCloseTo(closureOf(plain, x), 14);
  });
});

describe('fillTable', () => {
  it('holds the closure of every reading from the first on', () => {
    const calibration = buildCalibration(BENT, {});
    const table = new Float64Array(21);
    fillTable(calibration, -0.5, 0.1, table);
    expect(table[0]).toBe(0);
    expect(table[20]).toBe(1);
    expect(table[10]).toBeCloseTo(0.35, 12);
    expect(Array.from(table)).toEqual(
      Array.from({ length: 21 }, (_, i) => closureOf(calibration, -0.5 + i * 0.1)),
    );
  });
});

describe('buildCalibration', () => {
  it.each([
    ['a single point', points([1], [0]), /1 point\(s\); expected at least 2/],
    ['a reading that is no number', points([0, Number.NaN, 2], [0, 0.5, 1]), /point 2 is \(NaN, 0.5\)/],
    ['an infinite closure', points([0, 1], [0, Number.POSITIVE_INFINITY]), /point 2 is \(1, Infinity\)/],
    ['a repeated reading', points([0, 1, 1], [0, 0.5, 1]), /reading goes from 1 to 1 at point 3/],
    ['a reading that turns back', points([5, 3, 4], [0, 0.5, 1]), /reading goes from 3 to 4 at point 3/],
    ['two equal ends', points([2, 2], [0, 1]), /reading goes from 2 to 2 at point 2/],
    ['a closure that falls', points([0, 1, 2], [0, 1, 0.9]), /closure falls from 1 to 0.9 at point 3/],
    ['ends that are not open and closed', points([0, 1], [0, 0.8]), /closures run from 0 to 0.8/],
    ['closures from closed to open', points([0, 1], [1, 0]), /closure falls from 1 to 0 at point 2/],
  ])('refuses %s and names it', (_, pairs, message) => {
    expect(() => buildCalibration(pairs, {})).toThrow(message);
  });

  it('refuses a chip curve that turns inside the travel, and a step as large as the travel', () => {
    const turning = (x: number): number => (x - 1) * (x - 1);
    expect(() => buildCalibration(points([0, 1, 2], [0, 0.5, 1]), { chipCurve: turning })).toThrow(
      /reading after the chip curve goes from 0 to 1 at point 3/,
    );
    expect(() => buildCalibration(points([0, 1], [0, 1]), { chipCurve: () => Number.NaN })).toThrow(/NaN/);
    expect(() => buildCalibration(points([0, 4], [0, 1]), { step: 4 })).toThrow(/resolution step 4/);
    expect(() => buildCalibration(points([0, 4], [0, 1]), { step: -1 })).toThrow(/resolution step -1/);
  });

  it('leaves the points as they were', () => {
    const falling = points([3, 2, 1], [0, 0.2, 1]);
    buildCalibration(falling, {});
    expect(falling).toEqual(points([3, 2, 1], [0, 0.2, 1]));
  });
});

describe('calibration of a measured slide potentiometer', () => {
  const travel = SLIDE_POT.map(([mm]) => (mm + 48) / 88);
  const counts = SLIDE_POT.map(([, value]) => value);

  /** Captures n of the 45 places, evenly spaced along the travel. */
  function captured(n: number): CalibrationPoint[] {
    return Array.from({ length: n }, (_, i) => {
      const at = (i * (SLIDE_POT.length - 1)) / (n - 1);
      return { x: counts[at], closure: travel[at] };
    });
  }

  function worstPct(closureAt: (x: number) => number): number {
    return 100 * Math.max(...counts.map((x, i) => Math.abs(closureAt(x) - travel[i])));
  }

  // 8.1, 5.1 and 1.8 % of travel: computed from the same log with straight lines between the points
  // (NumPy interp: 8.076, 5.148, 1.802).
  it.each([
    [2, 8.1],
    [3, 5.1],
    [5, 1.8],
  ])('with straight lines through %i points is wrong by at most %d %% of travel', (n, expected) => {
    const pairs = captured(n);
    // Each stretch by itself is a two-point calibration, moved to its place.
    const worst = worstPct((x) => {
      let i = 0;
      while (i < n - 2 && x >= pairs[i + 1].x) i++;
      const [from, to] = [pairs[i], pairs[i + 1]];
      const stretch = buildCalibration(points([from.x, to.x], [0, 1]), {});
      return from.closure + (to.closure - from.closure) * closureOf(stretch, x);
    });
    expect(Math.abs(worst / expected - 1)).toBeLessThan(0.01);
  });

  // SciPy 1.17.1 PchipInterpolator over the same points.
  it.each([
    [2, 8.076],
    [3, 3.83],
    [5, 1.468],
  ])('with the curve through %i points is wrong by at most %d %% of travel', (n, expected) => {
    const calibration = buildCalibration(captured(n), {});
    expect(worstPct((x) => closureOf(calibration, x))).toBeCloseTo(expected, 2);
  });
});
