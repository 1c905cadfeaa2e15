import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Settings } from '../../../firmware/chain/settings.ts';
import { defaultRig, NOISE_PRESETS, noisePreset } from '../../../sim/rig/default-rig.ts';
import { uniformAt } from '../../../sim/seed/mix.ts';
import { runDrawTask } from '../../../sim/study/draw-task.ts';
import { defaultGrid } from '../../../sim/study/grid.ts';
import { heldRatio, type RaceJob, race } from '../../../sim/study/race.ts';
import { createRunner } from '../../../sim/study/runner.ts';
import { anyList, lookUp, row, tableRunner } from './table-runner.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';

/** The (allowed + 1)-th largest, by sorting. */
function heldBySorting(ratios: number[], allowed: number): number {
  return [...ratios].sort((a, b) => b - a)[allowed];
}

const wild = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 30 }).map((n) => n / 10) },
  { weight: 1, arbitrary: fc.constantFrom(Number.POSITIVE_INFINITY, 1e-320, 1e300, 0) },
);

describe('the ratio held in all but a few draws', () => {
  it('is the (allowed + 1)-th largest, whatever lies beyond the count', () => {
    fc.assert(
      fc.property(
        fc.array(wild, { minLength: 1, maxLength: 40 }),
        fc.nat(),
        fc.array(wild),
        (ratios, n, more) => {
          const allowed = n % ratios.length;
          const array = Float64Array.from([...ratios, ...more]);
          expect(heldRatio(array, ratios.length, allowed)).toBe(heldBySorting(ratios, allowed));
          expect(Array.from(array)).toEqual([...ratios, ...more]);
        },
      ),
    );
  });
});

describe('giving settings up', () => {
  /** Random ratios: each setting has a level, each draw a difficulty, and there are ties and hopeless draws. */
  const table = fc.record({
    seed: fc.integer(),
    count: fc.integer({ min: 1, max: 70 }),
    draws: fc.integer({ min: 1, max: 80 }),
    misses: fc.nat(),
    keep: fc.integer({ min: 1, max: 12 }),
    /** Steps in which ratios are rounded: coarse ones tie. */
    step: fc.constantFrom(1e-9, 0.05, 0.5),
    hopeless: fc.constantFrom(0, 0.02, 0.3, 1),
    spread: fc.constantFrom(0, 0.3, 3),
  });

  function ratiosOf(t: {
    seed: number;
    count: number;
    draws: number;
    step: number;
    hopeless: number;
    spread: number;
  }) {
    return Array.from({ length: t.draws }, (_, d) =>
      Array.from({ length: t.count }, (_, s) => {
        const u = (i: number) => uniformAt(i, t.seed | 0, 0x1234567);
        const value = u(s) * t.spread + u(1000 + d) * 0.4 + u(2000 + d * 100 + s) * 0.6;
        const kind = u(20_000 + d * 100 + s);
        if (kind < t.hopeless) return [Number.NaN, Number.POSITIVE_INFINITY, 1e300][Math.floor(u(s + d) * 3)];
        return Math.round(value / t.step) * t.step;
      }),
    );
  }

  it('never changes who the best are, nor their order: with ties, NaN and infinities', async () => {
    const usual = defaultRig();
    // A wish of 1 makes the score itself the ratio, to the bit.
    const rig = { ...usual, wishes: { ...usual.wishes, lagMs: 1 } };
    await fc.assert(
      fc.asyncProperty(table, async (t) => {
        const ratios = ratiosOf(t);
        const settings = anyList(t.count);
        const allowedMisses = t.misses % Math.min(t.draws, 6);
        const rows = (_: unknown, draw: number, s: Settings) =>
          row({ lagMs: ratios[draw][settings.indexOf(s)] });
        const job: RaceJob = {
          rig,
          seed: 1,
          settings,
          draws: t.draws,
          allowedMisses,
          keep: t.keep,
          giveUp: true,
        };
        const result = await race(job, tableRunner(rows));
        // The order by definition; a score that is no number is as bad as can be.
        const held = settings.map((_, s) =>
          heldBySorting(
            ratios.map((r) => (Number.isNaN(r[s]) ? Number.POSITIVE_INFINITY : r[s])),
            allowedMisses,
          ),
        );
        const order = settings.map((_, s) => s);
        order.sort((a, b) => (held[a] === held[b] ? a - b : held[a] - held[b]));
        expect(result.ranking.slice(0, t.keep)).toEqual(order.slice(0, t.keep));
        const full = await race({ ...job, giveUp: false }, tableRunner(rows));
        expect(full.ranking).toEqual(order);
        expect(full.evaluations).toBe(t.count * t.draws * rig.fingers.length);
        expect(result.evaluations).toBeLessThanOrEqual(full.evaluations);
        for (const index of result.ranking) expect(result.entries[index].draws).toBe(t.draws);
      }),
      { numRuns: LONG ? 5000 : 300 },
    );
  });

  it('saves work when some settings are clearly worse', async () => {
    const settings = anyList(60);
    const rig = defaultRig();
    const rows = (_: unknown, draw: number, s: Settings) =>
      row({ lagMs: 10 + settings.indexOf(s) + (draw % 7) });
    const job: RaceJob = { rig, seed: 1, settings, draws: 100, allowedMisses: 5, keep: 6, giveUp: true };
    const runner = tableRunner(rows);
    const result = await race(job, runner);
    expect(result.ranking.slice(0, 6)).toEqual([0, 1, 2, 3, 4, 5]);
    // Everyone over the first 16 draws and twelve pace setters over the rest; some near ones a little longer.
    expect(runner.asked).toBeLessThan(60 * 16 + 20 * 84);
    expect(result.evaluations).toBe(runner.asked * rig.fingers.length);
  });

  const anyCase = fc.record({
    seed: fc.integer(),
    preset: fc.constantFrom(...NOISE_PRESETS),
    board: fc.constantFrom('esp32', 'esp32-s3', 'esp32-c3' as const),
    frameRateHz: fc.constantFrom(...(LONG ? [25, 50, 100] : [25])),
    playMm: fc.constantFrom(0, 0.3, 1),
    openTorqueMNm: fc.constantFrom(2, 5.3, 12),
    lagMs: fc.constantFrom(20, 30, 60),
    jitterPct: fc.constantFrom(0.1, 0.5, 2),
    first: fc.nat(71),
  });

  it('finds the same six best as the full grid on simulated builds', async () => {
    await fc.assert(
      fc.asyncProperty(anyCase, async (c) => {
        const usual = defaultRig(c.board);
        const rig = {
          ...usual,
          frameRateHz: c.frameRateHz,
          noise: noisePreset(c.preset),
          wishes: { ...usual.wishes, lagMs: c.lagMs, jitterPct: c.jitterPct },
          fingers: usual.fingers.slice(1, 2).map((f) => ({
            ...f,
            playMm: c.playMm,
            spring: { ...f.spring, openTorqueMNm: c.openTorqueMNm },
          })),
        };
        const settings = defaultGrid().filter((_, i) => i % 84 === c.first);
        expect(settings.length).toBe(60);
        const draws = 40;
        const numbers = Array.from({ length: draws }, (_, d) => d);
        const all = runDrawTask({ rig, seed: c.seed, draws: numbers, settings });
        const job: RaceJob = { rig, seed: c.seed, settings, draws, allowedMisses: 2, keep: 6, giveUp: true };
        const quick = await race(job, tableRunner(lookUp(settings, all)));
        const full = await race({ ...job, giveUp: false }, tableRunner(lookUp(settings, all)));
        expect(quick.ranking.slice(0, 6)).toEqual(full.ranking.slice(0, 6));
        for (const index of quick.ranking.slice(0, 6)) {
          expect(quick.entries[index].scores).toEqual(full.entries[index].scores);
        }
      }),
      { numRuns: LONG ? 80 : 20 },
    );
  }, 600_000);

  it('finds them with the engine itself, which then runs some settings alone', async () => {
    const usual = defaultRig();
    const rig = { ...usual, frameRateHz: 25, fingers: usual.fingers.slice(0, 2) };
    const settings = defaultGrid().filter((_, i) => i % 72 === 5);
    const job: RaceJob = { rig, seed: 11, settings, draws: 40, allowedMisses: 2, keep: 6, giveUp: true };
    const runner = createRunner(1);
    const quick = await race(job, runner);
    const full = await race({ ...job, giveUp: false }, runner);
    expect(quick.ranking.slice(0, 6)).toEqual(full.ranking.slice(0, 6));
    expect(quick.evaluations).toBeLessThan(full.evaluations);
    for (const entry of quick.entries) {
      const { scores } = full.entries[entry.index];
      expect(entry.scores).toEqual(scores.slice(0, entry.scores.length));
    }
  });
});
