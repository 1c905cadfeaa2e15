import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { HAND_SCORES, worstRatio } from '../../../sim/study/hand-scores.ts';
import type { Entry } from '../../../sim/study/race.ts';
import { rate } from '../../../sim/study/rate.ts';
import { plain } from './any-settings.ts';
import { row } from './table-runner.ts';

const rig = defaultRig();
const settings = plain({ oversampling: 4 });

function entryOf(rows: Float64Array[]): Entry {
  const scores = new Float64Array(rows.length * HAND_SCORES);
  rows.forEach((r, d) => {
    scores.set(r, d * HAND_SCORES);
  });
  const ratios = Float64Array.from(rows, (_, d) => worstRatio(scores, d * HAND_SCORES, rig.wishes));
  return { index: 0, draws: rows.length, scores, ratios };
}

/** So many draws that just meet the lag wish (30 ms) and so many that just miss it. */
function rated(met: number, missed: number, of = rig) {
  const rows = [
    ...Array.from({ length: met }, () => row({ lagMs: 30 })),
    ...Array.from({ length: missed }, () => row({ lagMs: 30.001 })),
  ];
  return rate(settings, entryOf(rows), of, 1, Math.floor(0.05 * rows.length + 1e-9));
}

describe('meeting the wishes', () => {
  it('takes 19 of 20 draws: 190 of 200, not 189', () => {
    expect(rated(190, 10).meets).toBe(true);
    expect(rated(190, 10).metShare).toBe(0.95);
    expect(rated(189, 11).meets).toBe(false);
  });

  it('takes enough draws to be sure of 90 %', () => {
    // Lower Wilson bound of n in n: n/(n + 1.96²). 34 in 34: 0.8985, 35 in 35: 0.9011.
    expect(rated(34, 0).meets).toBe(false);
    expect(rated(35, 0).meets).toBe(true);
    expect(rated(35, 0).metShareLow).toBeCloseTo(35 / (35 + 3.8415), 4);
    // 190 of 200: p = 0.95, z² = 3.8415: (p + z²/2n − z·√(p(1−p)/n + z²/4n²))/(1 + z²/n) = 0.9104
    expect(rated(190, 10).metShareLow).toBeCloseTo(0.9104, 4);
    expect(rated(57, 3).meets).toBe(false);
  });

  it('goes with the worst ratio that is held', () => {
    expect(rated(190, 10).worstRatio).toBe(1);
    expect(rated(189, 11).worstRatio).toBeCloseTo(30.001 / 30, 12);
    expect(rated(189, 11).hardestWish).toBe('lagMs');
  });

  it('is out of the question when the board is too slow, however good the scores', () => {
    const slow = { ...rig, frameRateHz: 2000 };
    const result = rated(200, 0, slow);
    expect(result.meets).toBe(false);
    expect(result.hardestWish).toBe('frameShare');
    expect(result.scores.loadPct.value).toBeGreaterThan(50);
  });

  it('counts a score that is no number as a miss', () => {
    const rows = Array.from({ length: 200 }, (_, d) => row({ jitterPct: d < 11 ? Number.NaN : 0.1 }));
    const result = rate(settings, entryOf(rows), rig, 1, 10);
    expect(result.meets).toBe(false);
    expect(result.worstRatio).toBe(Number.POSITIVE_INFINITY);
    expect(result.metShare).toBe(189 / 200);
  });

  it('counts powers of ten of false gestures beyond the wish of 1 an hour', () => {
    const at = (falsePerHour: number) => worstRatio(row({ falsePerHour }), 0, rig.wishes);
    expect([0, 0.5, 1, 10, 1000].map(at)).toEqual([0, 0.5, 1, 2, 4]);
  });

  it('can be asked for without any false gestures, and is then met by none', () => {
    const never = { ...rig.wishes, falsePerHour: 0 };
    expect(worstRatio(row({ falsePerHour: 0, lagMs: 15 }), 0, never)).toBe(0.5);
    expect(worstRatio(row({ falsePerHour: 0.01 }), 0, never)).toBeGreaterThan(1);
    expect(worstRatio(row({ falsePerHour: 0.01 }), 0, never)).toBeLessThan(Number.POSITIVE_INFINITY);
  });

  it('is as hard as the hardest wish', () => {
    const scores = { lagMs: 15, jitterPct: 0.1, falsePerHour: 0.1, stepPct: 0.2, endMissPct: 0.3 };
    expect(worstRatio(row(scores), 0, rig.wishes)).toBe(0.5);
    expect(worstRatio(row({ ...scores, jitterPct: 0.4 }), 0, rig.wishes)).toBe(0.8);
    expect(worstRatio(row({ ...scores, stepPct: 1.5 }), 0, rig.wishes)).toBe(1.5);
    expect(worstRatio(row({ ...scores, endMissPct: 6 }), 0, rig.wishes)).toBe(2);
  });
});

describe('expected scores', () => {
  it('are means over the draws, with an interval round them', () => {
    const rows = Array.from({ length: 100 }, (_, d) =>
      row({ lagMs: 10 + (d % 10), jitterPct: 0.2, jitterDeg: 0.18 }),
    );
    const { scores } = rate(settings, entryOf(rows), rig, 1, 5);
    expect(scores.lagMs.value).toBeCloseTo(14.5, 12);
    // ± 1.96 standard errors: sd of 0-9 is 2.872, so 0.56
    expect(scores.lagMs.low).toBeGreaterThan(14.5 - 0.75);
    expect(scores.lagMs.low).toBeLessThan(14.5 - 0.4);
    expect(scores.lagMs.high).toBeGreaterThan(14.5 + 0.4);
    expect(scores.jitterPct).toMatchObject({ value: expect.closeTo(0.2, 12), low: expect.closeTo(0.2, 12) });
    expect(scores.jitterDeg.value).toBeCloseTo(0.18, 12);
  });
});
