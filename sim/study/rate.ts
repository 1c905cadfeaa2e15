import { frameShare } from '../../firmware/boards/cost.ts';
import type { Settings } from '../../firmware/chain/settings.ts';
import type { Rig, Wishes } from '../rig/rig.ts';
import { keys } from '../seed/mix.ts';
import { DRAW_WISHES, HAND, HAND_SCORES, wishRatio } from './hand-scores.ts';
import { type Entry, heldRatio } from './race.ts';
import type { RatedSettings, ScoreValue } from './result.ts';
import { SCORE_NAMES, SCORES, type ScoreName } from './score-names.ts';
import { settingsId } from './settings-id.ts';
import { bootstrap, mean } from './stats/bootstrap.ts';
import { wilsonInterval, Z_95 } from './stats/wilson.ts';

/** Wishes must be met in this share of the draws ... */
export const MET_SHARE = 0.95;
/** ... and the lower 95 % Wilson bound of that share must be at least this. */
export const MET_SHARE_LOW = 0.9;

/** The value of a score in one draw. */
export function scoreOf(name: ScoreName, scores: Float64Array, at: number, loadPct: number): number {
  if (name === 'loadPct') return loadPct;
  return scores[at + HAND[name]];
}

/** Frame time used, %. */
export function loadPctOf(settings: Settings, rig: Rig): number {
  return 100 * frameShare(settings, rig.fingers.length, rig.board, rig.frameRateHz);
}

/** Everything that is told about settings that ran all draws. */
export function rate(
  settings: Settings,
  entry: Entry,
  rig: Rig,
  seed: number,
  allowed: number,
): RatedSettings {
  const { draws, scores, ratios } = entry;
  const loadPct = loadPctOf(settings, rig);
  const values = {} as Record<ScoreName, ScoreValue>;
  SCORE_NAMES.forEach((name, i) => {
    const perDraw = Float64Array.from({ length: draws }, (_, d) =>
      scoreOf(name, scores, d * HAND_SCORES, loadPct),
    );
    // The same resamples for all settings: their differences are then the settings' own.
    const [k0, k1] = keys(i, seed, 30);
    const { estimate, low, high } = bootstrap(perDraw, mean, { k0, k1 });
    values[name] = { value: estimate, low, high, unit: SCORES[name].unit };
  });
  let met = 0;
  for (let d = 0; d < draws; d++) if (ratios[d] <= 1) met++;
  const interval = wilsonInterval(met, draws, Z_95);
  const loadRatio = loadPct / (100 * rig.wishes.frameShare);
  const hardest = hardestWish(entry, rig.wishes, allowed);
  // A count in one draw's few seconds cannot show a rare event: over all draws it can.
  const falseRatio = wishRatio('falsePerHour', values.falsePerHour.value, rig.wishes);
  const held = {} as Record<keyof Wishes, number>;
  for (const wish of DRAW_WISHES) held[wish] = heldScore(entry, HAND[wish], allowed);
  held.frameShare = loadPct / 100;
  return {
    id: settingsId(settings),
    settings,
    scores: values,
    metShare: met / draws,
    metShareLow: interval.low,
    worstRatio: loadRatio > 1 ? loadRatio : Math.max(heldRatio(ratios, draws, allowed), falseRatio),
    hardestWish: loadRatio > 1 ? 'frameShare' : falseRatio > hardest.ratio ? 'falsePerHour' : hardest.wish,
    held,
    meets: met / draws >= MET_SHARE && interval.low >= MET_SHARE_LOW && loadRatio <= 1 && falseRatio <= 1,
  };
}

/** The value that a score keeps to in all draws but the allowed ones. */
function heldScore(entry: Entry, offset: number, allowed: number): number {
  return heldRatio(
    Float64Array.from({ length: entry.draws }, (_, d) => entry.scores[d * HAND_SCORES + offset]),
    entry.draws,
    allowed,
  );
}

/** The wish with the largest ratio, each taken by itself over the draws. */
function hardestWish(entry: Entry, wishes: Wishes, allowed: number): { wish: keyof Wishes; ratio: number } {
  let hardest: { wish: keyof Wishes; ratio: number } = { wish: DRAW_WISHES[0], ratio: -1 };
  for (const wish of DRAW_WISHES) {
    const ratio = wishRatio(wish, heldScore(entry, HAND[wish], allowed), wishes);
    if (ratio > hardest.ratio) hardest = { wish, ratio };
  }
  return hardest;
}
