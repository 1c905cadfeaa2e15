import type { Rig, Wishes } from '../rig/rig.ts';
import { DRAW_WISHES } from './hand-scores.ts';
import { MET_SHARE } from './rate.ts';
import type { ChooseResult, RatedSettings, WhatIf } from './result.ts';

/** Wishes as people say them. */
export const WISH_WORDS: Record<keyof Wishes, string> = {
  jitterPct: 'jitter at rest',
  lagMs: 'lag at fast grasps',
  falsePerHour: 'false gestures',
  stepPct: 'jumps in slow motion',
  frameShare: 'time in the frame',
};

const UNITS: Record<keyof Wishes, string> = {
  jitterPct: '% of closure',
  lagMs: 'ms',
  falsePerHour: 'an hour',
  stepPct: '% of closure',
  frameShare: '% of the frame time',
};

function number(value: number): string {
  if (value === 0) return '0';
  return Math.abs(value) < 1e-3 ? 'under 0.001' : `${Number(value.toPrecision(2))}`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(share === 1 ? 0 : 1)} %`;
}

/** What was found, in words. */
export function verdictOf(
  pick: RatedSettings,
  rig: Rig,
  draws: number,
  changes: WhatIf[],
): ChooseResult['verdict'] {
  const { wishes } = rig;
  const { meets } = pick;
  const { jitterPct, lagMs, falsePerHour, stepPct, loadPct } = pick.scores;
  const headline = meets
    ? `Yes: these settings meet every wish in ${percent(pick.metShare)} of ${draws} simulated builds.`
    : `No settings meet all wishes in ${percent(MET_SHARE)} of ${draws} simulated builds; the nearest do in ${percent(pick.metShare)}.`;
  const details = [
    `Expect ${number(jitterPct.value)} % of closure of jitter at rest and ${number(lagMs.value)} ms of lag at fast grasps (wishes: at most ${wishes.jitterPct} % and ${wishes.lagMs} ms).`,
    `Expect ${number(falsePerHour.value)} false gestures an hour with the hand held at the threshold, jumps of ${number(stepPct.value)} % in slow motion, and ${number(loadPct.value)} % of the frame time used on the board.`,
  ];
  const best = changes.find((change) => change.clear && change.ratioChange.value < 0);
  if (best) {
    details.push(
      `The one change that would help most: ${best.change} (jitter ${signed(best.jitterChangePct.value)} % of closure, lag ${signed(best.lagChangeMs.value)} ms).`,
    );
  } else if (changes.length > 0) {
    details.push('None of the single changes of the build that were tried is clearly better.');
  }
  return { meets, headline, details, obstacles: meets ? [] : obstaclesOf(pick, wishes, best) };
}

function signed(value: number): string {
  return `${value > 0 ? '+' : value < 0 ? '−' : '±'}${number(Math.abs(value))}`;
}

function obstaclesOf(pick: RatedSettings, wishes: Wishes, best: WhatIf | undefined): string[] {
  const obstacles: string[] = [];
  const over = 100 * (pick.worstRatio - 1);
  if (pick.hardestWish === 'frameShare') {
    obstacles.push(
      `Even the cheapest settings use ${number(pick.scores.loadPct.value)} % of the frame time; the wish is at most ${number(100 * wishes.frameShare)} %. Lower the frame rate or allow a larger share.`,
    );
  } else {
    const wish = pick.hardestWish;
    obstacles.push(
      `The ${WISH_WORDS[wish]} stand in the way: 19 of 20 builds stay within ${(1 + over / 100).toPrecision(3)} times the wish of ${wishes[wish]} ${UNITS[wish]}, not within the wish.`,
    );
    const others = DRAW_WISHES.filter((w) => w !== wish && pick.scores[w].value > wishes[w]);
    for (const other of others) {
      obstacles.push(
        `The ${WISH_WORDS[other]} also miss the wish: ${number(pick.scores[other].value)} against ${wishes[other]} ${UNITS[other]}.`,
      );
    }
  }
  if (best) obstacles.push(`Try first: ${best.change}.`);
  return obstacles;
}
