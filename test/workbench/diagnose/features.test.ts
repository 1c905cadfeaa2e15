import { describe, expect, it } from 'vitest';
import { keys } from '../../../sim/seed/mix.ts';
import { openStream } from '../../../sim/seed/stream.ts';
import { play } from '../../../sim/string/play.ts';
import type { RawRows } from '../../../workbench/diagnose/evidence.ts';
import { burstsOf } from '../../../workbench/diagnose/features/bursts.ts';
import {
  missingCodesOf,
  oddMargin,
  oddShareOf,
  repeatsOf,
  saturationOf,
} from '../../../workbench/diagnose/features/codes.ts';
import { commonShareOf } from '../../../workbench/diagnose/features/common-share.ts';
import { dipsOf } from '../../../workbench/diagnose/features/dips.ts';
import { flicksOf, flickTimesOf, restLevelsOf } from '../../../workbench/diagnose/features/flicks.ts';
import { followingOf } from '../../../workbench/diagnose/features/play-and-lag.ts';
import { directionsOf, flatEndsOf, slowCurveOf } from '../../../workbench/diagnose/features/slow-curve.ts';
import { aliasesOf, nameHum, strongestTone } from '../../../workbench/diagnose/features/spectrum.ts';
import {
  correlationOf,
  lineOf,
  quantileOf,
  robustSdOf,
  sdOf,
  sortedOf,
} from '../../../workbench/diagnose/features/statistics.ts';
import { medianRows, travelRows } from '../../../workbench/diagnose/features/travel-rows.ts';
import { twoLevelsOf } from '../../../workbench/diagnose/features/two-levels.ts';
import { badPlaceOf, isolatedOf } from '../../../workbench/diagnose/features/wrong-readings.ts';

const normals = (seed: number) => openStream(keys(0, seed, 9)).normal;

function rawOf(frames: number, reading: (n: number, frame: number) => number): RawRows {
  return {
    timesS: Float64Array.from({ length: frames }, (_, f) => f / 100),
    counts: Uint16Array.from({ length: 5 * frames }, (_, n) => reading(n, Math.floor(n / 5))),
    paceS: 0,
  };
}

describe('statistics', () => {
  it('agree with NumPy and SciPy 1.17', () => {
    // Anscombe's first quartet: np.corrcoef, np.polyfit.
    const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
    const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    expect(correlationOf(x, y)).toBeCloseTo(0.81642052, 8);
    expect(lineOf(x, y).slope).toBeCloseTo(0.50009091, 8);
    expect(lineOf(x, y).at0).toBeCloseTo(3.00009091, 8);
    expect(sdOf([2, 4, 4, 4, 5, 5, 7, 9])).toBe(2);
    // np.quantile, stats.median_abs_deviation(scale='normal')
    expect(quantileOf(sortedOf([40, 1, 16, 2, 8, 4]), 0.3)).toBeCloseTo(3, 12);
    expect(robustSdOf([1, 2, 4, 7, 11, 100])).toBeCloseTo(5.93041, 4);
  });

  it('leave out what is no number, row by row', () => {
    expect([
      ...medianRows([Float64Array.of(1, NaN, NaN), Float64Array.of(5, 2, NaN), Float64Array.of(9, 4, NaN)]),
    ]).toEqual([5, 3, NaN]);
    const [travel] = travelRows({
      timesS: Float64Array.of(0, 1, 2),
      words: [Uint16Array.of(6553, 58982, 65535)],
    });
    expect([...travel!]).toEqual([0, 1, NaN]);
  });
});

describe('codes', () => {
  it('counts odd ones, and knows how far chance takes the share', () => {
    expect(oddShareOf([1, 2, 3, 5])).toBe(0.75);
    // Parity of a rounded normal number centred on a code: sum of even cells minus odd ones, scipy.stats.norm.
    expect(oddMargin(0.5, 1e12, 0)).toBeCloseTo(0.5 * 0.37078, 4);
    expect(oddMargin(6, 2500, 5)).toBeCloseTo(0.05, 12);
  });

  it('names codes of the middle that never come, and none where readings are few', () => {
    const even = Array.from({ length: 2000 }, (_, i) => 1000 + (i % 20));
    expect(missingCodesOf(even)).toEqual([]);
    expect(missingCodesOf(even.map((code) => (code === 1008 ? 1009 : code)))).toEqual([1008]);
    expect(missingCodesOf([1000, 1005, 1010])).toEqual([]);
  });

  it('tells repeats and both ends of the range', () => {
    expect(repeatsOf([4, 4, 7, 7, 7, 4])).toEqual({ longest: 3, share: 0.6, value: 7 });
    expect(saturationOf([0, 0, 5, 4095])).toEqual({ atBottom: 0.5, atTop: 0.25 });
  });
});

describe('raw frames', () => {
  it.each([2, 6, 25])('give the noise of a single reading, sd %d, whatever the frames do', (sd) => {
    const normal = normals(sd);
    const raw = rawOf(800, (_, f) => Math.round(1000 + 0.8 * f + sd * normal()));
    // Standard error of the median of 800 variances of five: about 4 %.
    expect(burstsOf(raw).ownSd / sd).toBeGreaterThan(0.9);
    expect(burstsOf(raw).ownSd / sd).toBeLessThan(1.1);
  });

  it('count readings that stand alone, not pairs', () => {
    const raw = rawOf(
      100,
      (n, f) => 1000 + (f === 10 && n % 5 === 2 ? 80 : 0) + (f === 20 && n % 5 < 2 ? 90 : 0),
    );
    expect(isolatedOf(burstsOf(raw), 30)).toEqual({ count: 1, share: 0.002, sizeCounts: 80 });
  });

  it('show at which place of the travel readings are bad', () => {
    // A sweep from 500 to 2500 counts; every other frame between 60 and 70 % of it jumps.
    const raw = rawOf(
      1000,
      (n, f) => 500 + 2 * f + (f >= 600 && f < 700 && f % 2 === 0 && n % 5 === 0 ? 150 : 0),
    );
    const place = badPlaceOf(burstsOf(raw), 40)!;
    expect(place.count).toBe(50);
    expect(place.at).toBeGreaterThan(0.6);
    expect(place.at).toBeLessThan(0.7);
    expect(place.held).toBe(1);
    expect(place.sizeCounts).toBe(150);
  });
});

describe('tones', () => {
  it('finds 50.3 Hz in noise of twice its size within 0.2 Hz at 500 readings a second', () => {
    const normal = normals(3);
    const row = Float64Array.from(
      { length: 2000 },
      (_, i) => 4 * Math.sin((2 * Math.PI * 50.3 * i) / 500 + 1) + 8 * normal(),
    );
    const tone = strongestTone(row, 500, 13, 250)!;
    expect(Math.abs(tone.seenHz - 50.3)).toBeLessThan(0.2);
    expect(Math.abs(tone.amplitude - 4)).toBeLessThan(1);
    expect(nameHum(tone.seenHz, 500)).toMatchObject({ mainsHz: 50 });
    expect(nameHum(tone.seenHz, 500).likelyHz).toHaveLength(1);
  });

  it('sees 60 Hz at 40 Hz where 100 values a second are taken, and says so', () => {
    const row = Float64Array.from({ length: 400 }, (_, i) => 3 * Math.cos((2 * Math.PI * 60 * i) / 100));
    const tone = strongestTone(row, 100, 13, 50)!;
    expect(Math.abs(tone.seenHz - 40)).toBeLessThan(0.05);
    expect(Math.abs(tone.amplitude - 3)).toBeLessThan(0.1);
    const name = nameHum(tone.seenHz, 100);
    expect(name.mainsHz).toBe(60);
    expect(name.likelyHz[0]).toBeCloseTo(60, 1);
    expect(name.otherwiseHz[0]).toBeCloseTo(40, 1);
  });

  it('cannot tell 49.7 from 50.3 Hz at 100 values a second, and names both', () => {
    expect(nameHum(49.7, 100).likelyHz).toEqual([49.7, 50.3]);
    expect(aliasesOf(30, 100, 200)).toEqual([30, 70, 130, 170]);
    expect(nameHum(30, 100)).toEqual({ likelyHz: [30], mainsHz: undefined, otherwiseHz: [70, 130, 170] });
  });

  it('stands out of noise by chance less than once in e^10 rows', () => {
    let loud = 0;
    for (let seed = 0; seed < 300; seed++) {
      const normal = normals(100 + seed);
      const row = Float64Array.from({ length: 400 }, () => normal());
      if (strongestTone(row, 100, 13, 50)!.overFloor > Math.log(200) + 10) loud++;
    }
    expect(loud).toBe(0);
  });
});

describe('levels', () => {
  it('tells two levels with nothing between from a movement', () => {
    const flips = Array.from({ length: 400 }, (_, i) => (Math.floor(i / 50) % 2 === 0 ? 0 : 750) + (i % 3));
    expect(twoLevelsOf(flips)).toMatchObject({ lowShare: 0.5, flips: 7 });
    expect(twoLevelsOf(flips)!.apart).toBe(748);
    const sweep = Array.from({ length: 400 }, (_, i) => 3 * i);
    expect(twoLevelsOf(sweep)!.apart).toBeLessThan(1);
  });

  it('counts short falls with their depth and length', () => {
    const row = Float64Array.from({ length: 600 }, (_, i) => 1000 - (i % 100 > 50 && i % 100 < 54 ? 200 : 0));
    expect(dipsOf(row, 50)).toEqual({ count: 6, downShare: 1, depth: 200, rows: 3 });
    expect(
      dipsOf(
        row.map((v) => 2000 - v),
        50,
      ).count,
    ).toBe(0);
  });
});

describe('fingers together', () => {
  it('have a common share of 1 where they move alike, of 0 where they do not', () => {
    const normal = normals(5);
    const a = Float64Array.from({ length: 500 }, () => 10 * normal());
    const b = a.map((v) => 0.2 * v);
    expect(commonShareOf([a, b, a])).toBeCloseTo(1, 10);
    const other = Float64Array.from({ length: 500 }, () => normal());
    // Correlation of 500 independent pairs: sd 0.045.
    expect(commonShareOf([a, other])).toBeLessThan(0.18);
  });
});

/** Reference closure: 0 up to 1 and down again, twice. */
const REFERENCE = Float64Array.from({ length: 1600 }, (_, i) => {
  const phase = (i % 800) / 800;
  return phase < 0.5 ? 2 * phase : 2 - 2 * phase;
});

describe('slow movement', () => {
  it('knows closing from opening although the reference shakes', () => {
    const shaky = REFERENCE.map((r, i) => r + (i % 2 === 0 ? 0.004 : -0.004));
    const directions = directionsOf(shaky);
    expect(directions[200]).toBe(1);
    expect(directions[600]).toBe(-1);
    expect(directions[1000]).toBe(1);
  });

  it.each([
    [0, 0],
    [0.03, 0],
    [0.05, 0.08],
    [0, -0.12],
    [0.1, -0.05],
  ])('tells a play of %d from a lag of %d s where the speed varies', (half, lagS) => {
    // Minimum-jerk closing in 2 s, rest, opening in 2 s, rest: 6 s, twice; made here, the estimate knows nothing of it.
    const jerk = (u: number) => 10 * u ** 3 - 15 * u ** 4 + 6 * u ** 5;
    const closure = (tS: number) => {
      const t = ((tS % 6) + 6) % 6;
      return t < 0.5
        ? 0
        : t < 2.5
          ? jerk((t - 0.5) / 2)
          : t < 3.5
            ? 1
            : t < 5.5
              ? 1 - jerk((t - 3.5) / 2)
              : 0;
    };
    const reference = Float64Array.from({ length: 1200 }, (_, i) => closure(i / 100));
    let played = half;
    const bent = reference.map((_, i) => {
      played = play(played, closure(i / 100 - lagS), half);
      return played + 0.1 * played * (1 - played);
    });
    const following = followingOf(bent, reference, 100)!;
    expect(Math.abs(following.playHalf - half)).toBeLessThan(0.006);
    expect(Math.abs(following.lagS - lagS)).toBeLessThan(0.02);
  });

  it('measures flat ends to a step of the curve', () => {
    const travel = REFERENCE.map((r) => Math.min(0.85, Math.max(0.12, r)));
    const flat = flatEndsOf(slowCurveOf(travel, REFERENCE).closing, 0.005);
    expect(Math.abs(flat.open - 0.12)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(flat.closed - 0.15)).toBeLessThanOrEqual(0.02);
    const whole = flatEndsOf(slowCurveOf(REFERENCE, REFERENCE).closing, 0.005);
    // One step of the curve is 0.02; the second step is the first that lies beyond the tolerance.
    expect(whole.open).toBeLessThan(0.04);
    expect(whole.closed).toBeLessThan(0.04);
  });
});

describe('flicks', () => {
  // Rest at 0, up over 10 rows, 20 rows at 1, back over 30 rows to a rest at 0.06.
  const row = Float64Array.from({ length: 300 }, (_, i) =>
    i < 100 ? 0 : i < 110 ? (i - 100) / 10 : i < 130 ? 1 : i < 160 ? 1 - (0.94 * (i - 130)) / 30 : 0.06,
  );
  const times = row.map((_, i) => i / 100);

  it('finds one, not a spike, and its levels of rest before and after', () => {
    const flicks = flicksOf(row, 3);
    expect(flicks).toHaveLength(1);
    expect(
      flicksOf(
        row.map((v, i) => (i === 40 ? 0.9 : v)),
        3,
      ),
    ).toHaveLength(1);
    expect(restLevelsOf(row, flicks[0]!, 30, 20)).toEqual({ before: 0, after: 0.06 });
  });

  it('times the way out and back', () => {
    const timing = flickTimesOf(row, times, flicksOf(row, 3)[0]!)!;
    // 60 % of 0.1 s; 60 % of the height at 0.94 in 0.3 s.
    expect(timing.outS).toBeCloseTo(0.06, 6);
    expect(timing.backS).toBeCloseTo((0.6 / 0.94) * 0.3, 6);
  });
});
