import { describe, expect, it } from 'vitest';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { choose } from '../../../sim/study/choose.ts';
import { defaultGrid } from '../../../sim/study/grid.ts';
import type { ChooseResult } from '../../../sim/study/result.ts';
import { createRunner } from '../../../sim/study/runner.ts';
import { settingsId } from '../../../sim/study/settings-id.ts';
import { sweep } from '../../../sim/study/sweep.ts';

const SEED = 7;
const usual = defaultRig();
/** One finger and few frames: enough to go through everything. */
const small: Rig = { ...usual, frameRateHz: 25, fingers: usual.fingers.slice(1, 2) };
const settings = defaultGrid().filter((_, i) => i % 180 === 7);
const DRAWS = 4;

function run(rig: Rig, threads = 1, seed = SEED): Promise<ChooseResult> {
  const runner = createRunner(threads);
  const job = { rig, file: 'rig.yaml', version: '0', seed, draws: DRAWS, settings };
  return choose(job, runner).finally(() => runner.close());
}

function withWishes(wishes: Partial<Rig['wishes']>, rig = small): Rig {
  return { ...rig, wishes: { ...rig.wishes, ...wishes } };
}

const plainRun = run(small);

describe('choosing settings', () => {
  it('comes out the same on one thread and on two, and again, to the last digit', async () => {
    const text = JSON.stringify(await plainRun);
    expect(JSON.stringify(await run(small, 2))).toBe(text);
    expect(JSON.stringify(await run(small, 1, SEED + 1))).not.toBe(text);
  });

  it('takes the settings with the lowest worst ratio of those that fit, the others behind it', async () => {
    const { pick, runnersUp, table, settingsTried, settingsTooSlow } = await plainRun;
    const ratios = [pick, ...runnersUp].map((r) => r.worstRatio);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    expect(settingsTried + settingsTooSlow).toBe(settings.length);
    expect(table.length).toBe(settingsTried);
    for (const { settings: s, scores } of [pick, ...runnersUp]) {
      expect(settings).toContainEqual(s);
      expect(scores.loadPct.value).toBeLessThanOrEqual(100 * small.wishes.frameShare);
      for (const { value, low, high } of Object.values(scores)) {
        expect(low).toBeLessThanOrEqual(value);
        expect(value).toBeLessThanOrEqual(high);
      }
    }
  });

  it('tells parts of the lag that add up to it, none of them negative', async () => {
    for (const result of [await plainRun, await run({ ...small, fingers: usual.fingers })]) {
      const { lagParts, pick } = result;
      expect(lagParts.reduce((sum, part) => sum + part.ms, 0)).toBeCloseTo(pick.scores.lagMs.value, 9);
      for (const { ms } of lagParts) expect(ms).toBeGreaterThanOrEqual(0);
      // Half of 40 ms
      expect(lagParts.map((part) => part.ms)).toContain(20);
      // The first of n fingers waits until n − 1 others are read.
      const { readUs } = boardFacts('esp32');
      const others = result.rig.fingers.length - 1;
      expect(lagParts[2].ms).toBeCloseTo((others * pick.settings.oversampling * readUs) / 1000, 9);
    }
  });

  it('tells what changes of the build bring in finite numbers, best first', async () => {
    const { whatIf } = await plainRun;
    expect(whatIf.length).toBeGreaterThan(5);
    const ratios = whatIf.map((w) => w.ratioChange.value);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    for (const { ratioChange, jitterChangePct, lagChangeMs, falsePerHour, clear, settingsId: id } of whatIf) {
      for (const { value, low, high } of [ratioChange, jitterChangePct, lagChangeMs]) {
        expect(Number.isFinite(value) && Number.isFinite(low) && Number.isFinite(high)).toBe(true);
        expect(low).toBeLessThanOrEqual(value + 1e-12);
        expect(value).toBeLessThanOrEqual(high + 1e-12);
      }
      expect(Number.isFinite(falsePerHour.before) && Number.isFinite(falsePerHour.after)).toBe(true);
      expect(clear).toBe(ratioChange.low > 0 || ratioChange.high < 0);
      expect(settings.map(settingsId)).toContain(id);
    }
  });

  it('holds only numbers that JSON can hold', async () => {
    const walk = (value: unknown, path: string): void => {
      if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
      else if (value !== null && typeof value === 'object') {
        for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
      }
    };
    walk(await plainRun, '');
    const stuck = { openTorqueMNm: 0.5, perTurnMNm: 0, hysteresis: 0.1 };
    walk(await run({ ...small, fingers: small.fingers.map((f) => ({ ...f, spring: stuck })) }), 'stuck');
  });
});

describe('wishes that cannot be met', () => {
  it.each([
    ['lagMs', 1, /lag/],
    ['jitterPct', 0.001, /jitter/],
    ['stepPct', 0.001, /slow motion/],
  ] as const)(
    'of %s %d: no, with what stands in the way and the nearest settings',
    async (wish, value, words) => {
      const { verdict, pick, runnersUp } = await run(withWishes({ [wish]: value }));
      expect(verdict.meets).toBe(false);
      expect(pick.meets).toBe(false);
      expect(verdict.headline).toMatch(/^No settings meet all wishes/);
      expect(verdict.obstacles.length).toBeGreaterThan(0);
      expect(pick.id).toBe(settingsId(pick.settings));
      expect(runnersUp.length).toBe(5);
      expect(pick.hardestWish).toBe(wish);
      expect(verdict.obstacles[0]).toMatch(words);
    },
  );

  it('for a frame rate that the board cannot keep: says so and names the cheapest settings', async () => {
    const { verdict, pick, settingsTooSlow, settingsTried } = await run({
      ...small,
      frameRateHz: 400,
      fingers: usual.fingers,
    });
    expect(settingsTooSlow).toBe(settings.length);
    expect(settingsTried).toBe(1);
    expect(verdict.meets).toBe(false);
    expect(pick.hardestWish).toBe('frameShare');
    expect(verdict.obstacles[0]).toMatch(/frame time/);
    expect(pick.scores.loadPct.value).toBeGreaterThan(50);
    expect(pick.settings.oversampling).toBe(2);
  });

  it('with too few draws to be sure: not sure yet, although every draw went well', async () => {
    const easy = withWishes({ lagMs: 500, jitterPct: 50, falsePerHour: 1e9, stepPct: 50, endMissPct: 100 });
    const { verdict, pick } = await run(easy);
    expect(pick.metShare).toBe(1);
    expect(verdict.meets).toBe(false);
    expect(verdict.headline).toMatch(/^Not sure yet/);
    expect(verdict.obstacles[0]).toMatch(/--draws/);
  });
});

describe('the full table', () => {
  it('has every setting over every draw, also those that are too slow', async () => {
    const runner = createRunner(1);
    const rig = { ...small, fingers: usual.fingers, frameRateHz: 200 };
    const rows = await sweep({ rig, seed: SEED, draws: 2, settings: settings.slice(0, 8) }, runner);
    expect(rows.map((r) => r.settings)).toEqual(settings.slice(0, 8));
    expect(rows.every((r) => r.draws === 2)).toBe(true);
    expect(Math.max(...rows.map((r) => r.scores.loadPct))).toBeGreaterThan(50);
  });
});
