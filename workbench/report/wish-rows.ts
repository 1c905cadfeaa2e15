import type { Wishes } from '../../sim/rig/rig.ts';
import type { ChooseResult, RatedSettings, ScoreValue } from '../../sim/study/result.ts';
import { SCORE_NAMES, SCORES, type ScoreName } from '../../sim/study/score-names.ts';
import { formatShare, withUnit } from './numbers.ts';

/** How a score stands against its wish: `close` is met on average but not in 95 % of the draws. */
export type WishStanding = 'met' | 'close' | 'missed';

export interface WishRow {
  score: ScoreName;
  label: string;
  unit: string;
  value: ScoreValue;
  /** What 95 % of the draws keep to, in the score's unit. */
  held: number;
  /** Largest wished value, in the score's unit. */
  wish: number;
  standing: WishStanding;
}

/** Which score each wish is about, and what turns the wish into that score's unit. */
export const WISHED_SCORES: { wish: keyof Wishes; score: ScoreName; factor: number }[] = [
  { wish: 'jitterPct', score: 'jitterPct', factor: 1 },
  { wish: 'lagMs', score: 'lagMs', factor: 1 },
  { wish: 'falsePerHour', score: 'falsePerHour', factor: 1 },
  { wish: 'stepPct', score: 'stepPct', factor: 1 },
  { wish: 'endMissPct', score: 'endMissPct', factor: 1 },
  { wish: 'frameShare', score: 'loadPct', factor: 100 },
];

/** The wishes with what the settings are expected to reach, in a fixed order. */
export function wishRows(rated: RatedSettings, wishes: Wishes): WishRow[] {
  return WISHED_SCORES.map(({ wish, score, factor }) => {
    const value = rated.scores[score];
    const limit = wishes[wish] * factor;
    const held = rated.held[wish] * factor;
    return {
      score,
      held,
      label: SCORES[score].label,
      unit: SCORES[score].unit,
      value,
      wish: limit,
      standing: standingOf(value, held, limit),
    };
  });
}

/** Met needs both: the mean, and what 95 % of the draws keep to. */
export function standingOf(value: ScoreValue, held: number, wish: number): WishStanding {
  if (!(value.value <= wish)) return 'missed';
  return held <= wish ? 'met' : 'close';
}

export const STANDING_WORDS: Record<WishStanding, string> = { met: 'yes', close: 'not always', missed: 'no' };

/** Scores that nobody wished anything of. */
export function otherScores(): ScoreName[] {
  return SCORE_NAMES.filter((name) => WISHED_SCORES.every((wished) => wished.score !== name));
}

/** Label and unit for the head of a column. */
export function scoreHeading(name: ScoreName): string {
  return `${SCORES[name].label}, ${name === 'loadPct' ? '%' : SCORES[name].unit}`;
}

/** How surely the wishes are met, and which one is the hardest. */
export function certaintySentences(rated: RatedSettings, draws: number): string[] {
  const hardest = WISHED_SCORES.find((wished) => wished.wish === rated.hardestWish)!;
  const ofWish = withUnit(String(Math.round(rated.worstRatio * 100)), '%');
  const only = rated.meets ? '' : 'only ';
  return [
    `All wishes are met together in ${only}${formatShare(rated.metShare)} of ${draws} draws of part tolerances and noise (with 95 % confidence: in at least ${formatShare(rated.metShareLow)}).`,
    `Hardest to meet: ${SCORES[hardest.score].label}. In 95 % of the draws it stays within ${ofWish} of the wish.`,
  ];
}

/** Score divided by wish, of the wish that comes off worst; a wish of 0 counts as met only by 0. */
export function worstMeanRatio(scores: Record<ScoreName, number>, wishes: Wishes): number {
  let worst = 0;
  for (const { wish, score, factor } of WISHED_SCORES) {
    const limit = wishes[wish] * factor;
    const ratio = limit > 0 ? scores[score] / limit : scores[score] > 0 ? Number.POSITIVE_INFINITY : 0;
    if (!(ratio <= worst)) worst = ratio;
  }
  return worst;
}

/** The command that gives this very answer again. */
export function repeatCommand(result: ChooseResult): string {
  const rest = result.restFile === null ? '' : ` --rest ${shellWord(result.restFile)}`;
  return `tautline choose ${shellWord(result.rig.file)} --seed ${result.seed} --draws ${result.draws}${rest}`;
}

/** The command that puts the chosen settings into the rig file. */
export function writeCommand(result: ChooseResult): string {
  return `${repeatCommand(result)} --write`;
}

function shellWord(word: string): string {
  return /^[\w@%+=:,./\\-]+$/.test(word) ? word : `"${word.replace(/(["$`\\])/g, '\\$1')}"`;
}
