import { describe, expect, it } from 'vitest';
import {
  certaintySentences,
  repeatCommand,
  standingOf,
  wishRows,
  worstMeanRatio,
} from '../../../workbench/report/wish-rows.ts';
import { inventedResult } from './fixture.ts';

describe('wishes and scores', () => {
  const result = inventedResult();

  it('calls a wish met, not always met or missed', () => {
    const eight = { value: 8, low: 7, high: 9, unit: '' };
    expect(standingOf(eight, 9.5, 10)).toBe('met');
    expect(standingOf(eight, 10, 10)).toBe('met');
    expect(standingOf(eight, 10.5, 10)).toBe('close');
    expect(standingOf({ ...eight, value: 11 }, 9, 10)).toBe('missed');
    expect(standingOf({ ...eight, value: Number.NaN }, 9, 10)).toBe('missed');
  });

  it('compares the frame share wished with the load in percent', () => {
    const load = wishRows(result.pick, result.wishes).find((row) => row.score === 'loadPct')!;
    expect(load.wish).toBe(60); // fixture: 0.6 of the frame
  });

  it('has one row for each wish', () => {
    expect(wishRows(result.pick, result.wishes).length).toBe(Object.keys(result.wishes).length);
  });

  it('names the hardest wish and how far it is used', () => {
    const pick = { ...result.pick, hardestWish: 'lagMs' as const, worstRatio: 0.93 };
    expect(certaintySentences(pick, 64)[1].replace(/\u00a0/g, ' ')).toBe(
      'Hardest to meet: lag at fast grasps. In 95 % of the draws it stays within 93 % of the wish.',
    );
  });

  it('finds the worst ratio of means; a wish of nothing is met only by nothing', () => {
    const zero = Object.fromEntries(Object.keys(result.pick.scores).map((name) => [name, 0]));
    const scores = { ...result.table[0].scores, ...zero, lagMs: 24, jitterPct: 0.1 };
    const wishes = { jitterPct: 0.2, lagMs: 30, falsePerHour: 0, frameShare: 0.5, stepPct: 1, endMissPct: 3 };
    expect(worstMeanRatio(scores, wishes)).toBeCloseTo(0.8, 12);
    expect(worstMeanRatio({ ...scores, falsePerHour: 0.1 }, wishes)).toBe(Number.POSITIVE_INFINITY);
  });

  it('quotes a file name that a shell would take apart', () => {
    const rig = { ...result.rig, file: 'my rigs/$left.yaml' };
    expect(repeatCommand({ ...result, rig })).toBe(
      'tautline choose "my rigs/\\$left.yaml" --seed 7 --draws 64',
    );
    expect(repeatCommand({ ...result, restFile: 'my rest.csv' })).toBe(
      'tautline choose examples/lantern-yard.yaml --seed 7 --draws 64 --rest "my rest.csv"',
    );
  });
});
