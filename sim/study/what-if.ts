import { frameShare } from '../../firmware/boards/cost.ts';
import type { Settings } from '../../firmware/chain/settings.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { keys } from '../seed/mix.ts';
import { type BuildChange, buildChanges } from './build-changes.ts';
import { HAND, HAND_SCORES, worstRatio } from './hand-scores.ts';
import type { ScoreValue, WhatIf } from './result.ts';
import type { Runner } from './runner.ts';
import { SCORES } from './score-names.ts';
import { settingsId } from './settings-id.ts';
import { bootstrapPairedDifference, mean } from './stats/bootstrap.ts';

export interface WhatIfJob {
  rig: Rig;
  rest?: RestRecording;
  seed: number;
  /** Settings to choose from on every build, the pick first. */
  candidates: Settings[];
  draws: number;
  onProgress?: (done: number, total: number) => void;
}

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
 * that suit it best, so that a calmer build may use lighter smoothing.
 * @returns sorted by what they bring, best first
 */
export async function whatIf(job: WhatIfJob, runner: Runner): Promise<WhatIf[]> {
  const changes = buildChanges(job.rig);
  const total = changes.length + 1;
  // By the same rule as for the changes, so that choosing anew is not taken for the change's own merit.
  // If nothing fits the frame time, the nearest settings stand for the build as it is.
  const base =
    (await bestOn(job, job.rig, job.candidates, runner)) ??
    (await bestOn(
      job,
      { ...job.rig, wishes: { ...job.rig.wishes, frameShare: Infinity } },
      job.candidates,
      runner,
    ));
  if (!base) return [];
  job.onProgress?.(1, total);
  const results: WhatIf[] = [];
  for (const [i, change] of changes.entries()) {
    const best = await bestOn(job, change.rig, job.candidates, runner);
    if (best) results.push(compare(change, base, best, job.seed, i));
    job.onProgress?.(i + 2, total);
  }
  return results.sort((a, b) => a.ratioChange.value - b.ratioChange.value);
}

async function bestOn(
  job: WhatIfJob,
  rig: Rig,
  candidates: Settings[],
  runner: Runner,
): Promise<Best | undefined> {
  const settings = candidates.filter(
    (s) => frameShare(s, rig.fingers.length, rig.board, rig.frameRateHz) <= rig.wishes.frameShare,
  );
  if (settings.length === 0) return undefined;
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
    ratios: ratiosOf(best),
    jitterPct: scoreOf(HAND.jitterPct),
    lagMs: scoreOf(HAND.lagMs),
    falsePerHour: scoreOf(HAND.falsePerHour),
  };
}

function compare(change: BuildChange, before: Best, after: Best, seed: number, index: number): WhatIf {
  const [k0, k1] = keys(index, seed, 31);
  const difference = (a: Float64Array, b: Float64Array, unit: string): ScoreValue => {
    const { estimate, low, high } = bootstrapPairedDifference(a, b, { k0, k1 });
    return { value: estimate, low, high, unit };
  };
  const ratioChange = difference(before.ratios, after.ratios, 'share of the wish');
  return {
    change: `${change.change}: ${change.from} -> ${change.to}`,
    path: change.path,
    from: change.from,
    to: change.to,
    settings: after.settings,
    settingsId: settingsId(after.settings),
    ratioChange,
    jitterChangePct: difference(before.jitterPct, after.jitterPct, SCORES.jitterPct.unit),
    lagChangeMs: difference(before.lagMs, after.lagMs, SCORES.lagMs.unit),
    falsePerHour: { before: mean(before.falsePerHour), after: mean(after.falsePerHour) },
    clear: ratioChange.low > 0 || ratioChange.high < 0,
  };
}
