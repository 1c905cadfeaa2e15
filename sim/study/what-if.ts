import type { Settings } from '../../firmware/chain/settings.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { keys } from '../seed/mix.ts';
import { type BuildChange, buildChanges } from './build-changes.ts';
import { HAND, HAND_SCORES, worstRatio } from './hand-scores.ts';
import { loadPctOf } from './rate.ts';
import type { ScoreValue, WhatIf } from './result.ts';
import type { Runner } from './runner.ts';
import { SCORES } from './score-names.ts';
import { settingsId } from './settings-id.ts';
import { bootstrapPairedDifference, mean } from './stats/bootstrap.ts';

export interface WhatIfJob {
  rig: Rig;
  rest?: RestRecording;
  seed: number;
  /** All settings to choose from, also those that do not fit the build as it is. */
  settings: Settings[];
  draws: number;
  onProgress?: (done: number, total: number) => void;
}

/** Draws over which every setting is looked at on every changed build ... */
const LOOK_DRAWS = 3;
/** ... and settings that go on from there. */
const CANDIDATES = 32;

/** Scores of the settings that do best on one build. */
interface Best {
  settings: Settings;
  /** One value a draw. */
  ratios: Float64Array;
  jitterPct: Float64Array;
  lagMs: Float64Array;
  falsePerHour: Float64Array;
}

/**
 * Simulates single changes of the build with the same draws and seeds and lets every build have the candidates
 * that suit it best, so that a calmer build may use lighter smoothing and a faster one fewer readings.
 * @returns sorted by what they bring, best first
 */
export async function whatIf(job: WhatIfJob, runner: Runner): Promise<WhatIf[]> {
  const changes = buildChanges(job.rig, job.rest !== undefined);
  const total = changes.length + 1;
  // The build as it is by the same rule, so that choosing anew is not taken for the change's own merit.
  const base = await bestOn(job, job.rig, runner);
  job.onProgress?.(1, total);
  const results: WhatIf[] = [];
  for (const [i, change] of changes.entries()) {
    const best = await bestOn(job, change.rig, runner);
    results.push(compare(change, base, best, job.seed, i));
    job.onProgress?.(i + 2, total);
  }
  return results.sort((a, b) => a.ratioChange.value - b.ratioChange.value);
}

/** Settings that fit a rig's frame time; if none do, the cheapest one stands for what could be had. */
function fitting(settings: Settings[], rig: Rig): Settings[] {
  const fit = settings.filter((s) => loadPctOf(s, rig) <= 100 * rig.wishes.frameShare);
  if (fit.length > 0) return fit;
  return [settings.reduce((best, s) => (loadPctOf(s, rig) < loadPctOf(best, rig) ? s : best))];
}

/** The settings that look best on a rig over a few draws: each build gets candidates of its own. */
async function candidatesOn(job: WhatIfJob, rig: Rig, runner: Runner): Promise<Settings[]> {
  const settings = fitting(job.settings, rig);
  if (settings.length <= CANDIDATES) return settings;
  const draws = Array.from({ length: Math.min(LOOK_DRAWS, job.draws) }, (_, d) => d);
  const { seed, rest } = job;
  const scores = await runner.run({ rig, seed, draws, settings, ...(rest ? { rest } : {}) });
  const sums = settings.map((_, s) =>
    draws.reduce(
      (sum, d) => sum + worstRatio(scores, (d * settings.length + s) * HAND_SCORES, rig.wishes),
      0,
    ),
  );
  return settings
    .map((s, index) => ({ s, index }))
    .sort((a, b) => sums[a.index] - sums[b.index] || a.index - b.index)
    .slice(0, CANDIDATES)
    .map(({ s }) => s);
}

async function bestOn(job: WhatIfJob, rig: Rig, runner: Runner): Promise<Best> {
  const settings = await candidatesOn(job, rig, runner);
  const draws = Array.from({ length: job.draws }, (_, d) => d);
  const { seed, rest } = job;
  const scores = await runner.run({ rig, seed, draws, settings, ...(rest ? { rest } : {}) });
  const at = (draw: number, column: number) => (draw * settings.length + column) * HAND_SCORES;
  const ratiosOf = (column: number) =>
    Float64Array.from(draws, (d) => worstRatio(scores, at(d, column), rig.wishes));
  let best = 0;
  let bestRatio = Number.POSITIVE_INFINITY;
  for (let column = 0; column < settings.length; column++) {
    const ratio = mean(ratiosOf(column));
    if (ratio < bestRatio) {
      best = column;
      bestRatio = ratio;
    }
  }
  const scoreOf = (offset: number) => Float64Array.from(draws, (d) => scores[at(d, best) + offset]);
  return {
    settings: settings[best],
    ratios: loadedRatios(ratiosOf(best), settings[best], rig),
    jitterPct: scoreOf(HAND.jitterPct),
    lagMs: scoreOf(HAND.lagMs),
    falsePerHour: scoreOf(HAND.falsePerHour),
  };
}

/** A build on which nothing fits the frame time is no better than its load allows. */
function loadedRatios(ratios: Float64Array, settings: Settings, rig: Rig): Float64Array {
  const load = loadPctOf(settings, rig) / (100 * rig.wishes.frameShare);
  return load > 1 ? ratios.map((ratio) => Math.max(ratio, load)) : ratios;
}

function compare(change: BuildChange, before: Best, after: Best, seed: number, index: number): WhatIf {
  const [k0, k1] = keys(index, seed, 31);
  const difference = (a: Float64Array, b: Float64Array, unit: string): ScoreValue => {
    const { estimate, low, high } = bootstrapPairedDifference(a, b, { k0, k1 });
    return { value: estimate, low, high, unit };
  };
  const ratioChange = difference(before.ratios, after.ratios, 'share of the wish');
  return {
    change: `${change.change}: ${change.from} → ${change.to}`,
    path: change.path,
    from: change.from,
    to: change.to,
    settings: after.settings,
    settingsId: settingsId(after.settings),
    beforeId: settingsId(before.settings),
    ratioChange,
    jitterChangePct: difference(before.jitterPct, after.jitterPct, SCORES.jitterPct.unit),
    lagChangeMs: difference(before.lagMs, after.lagMs, SCORES.lagMs.unit),
    falsePerHour: { before: mean(before.falsePerHour), after: mean(after.falsePerHour) },
    clear: ratioChange.low > 0 || ratioChange.high < 0,
  };
}
