import type { Rig, Wishes } from '../rig/rig.ts';
import { DRAW_WISHES } from './hand-scores.ts';
import { MET_SHARE, MET_SHARE_LOW } from './rate.ts';
import type { ChooseResult, RatedSettings, WhatIf } from './result.ts';

/** Wishes as people say them. */
export const WISH_WORDS: Record<keyof Wishes, string> = {
  jitterPct: 'jitter at rest',
  lagMs: 'lag at fast grasps',
  falsePerHour: 'false gestures',
  stepPct: 'jumps in slow motion',
  endMissPct: 'travel lost at an end',
  frameShare: 'time in the frame',
};

const UNITS: Record<keyof Wishes, string> = {
  jitterPct: '% of closure',
  lagMs: 'ms',
  falsePerHour: 'an hour',
  stepPct: '% of closure',
  endMissPct: '% of closure',
  frameShare: '% of the frame time',
};

function number(value: number): string {
  if (value === 0) return '0';
  return Math.abs(value) < 1e-3 ? 'under 0.001' : `${Number(value.toPrecision(2))}`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(share === 1 || share === 0 ? 0 : 1)} %`;
}

/** What was found, in words. */
export function verdictOf(
  pick: RatedSettings,
  rig: Rig,
  draws: number,
  changes: WhatIf[],
): ChooseResult['verdict'] {
  const { wishes } = rig;
  const { jitterPct, lagMs, falsePerHour, stepPct, loadPct } = pick.scores;
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
  const { meets } = pick;
  return {
    meets,
    headline: headlineOf(pick, wishes, draws),
    details,
    obstacles: meets ? [] : obstaclesOf(pick, wishes, draws, best),
  };
}

/** Enough draws went well, but there are too few of them to promise anything. */
function tooFew(pick: RatedSettings, wishes: Wishes): boolean {
  return (
    pick.metShare >= MET_SHARE &&
    pick.metShareLow < MET_SHARE_LOW &&
    pick.worstRatio <= 1 &&
    pick.scores.loadPct.value <= 100 * wishes.frameShare
  );
}

function headlineOf(pick: RatedSettings, wishes: Wishes, draws: number): string {
  const met = percent(pick.metShare);
  if (pick.meets) return `Yes: these settings meet every wish in ${met} of ${draws} simulated builds.`;
  if (tooFew(pick, wishes)) {
    return `Not sure yet: these settings meet every wish in ${met} of ${draws} simulated builds, but ${draws} are too few to rely on.`;
  }
  return `No settings meet all wishes in ${percent(MET_SHARE)} of ${draws} simulated builds; the nearest do in ${met}.`;
}

function signed(value: number): string {
  if (Math.abs(value) < 5e-4) return '±0';
  return `${value > 0 ? '+' : '−'}${number(Math.abs(value))}`;
}

function obstaclesOf(pick: RatedSettings, wishes: Wishes, draws: number, best: WhatIf | undefined): string[] {
  if (tooFew(pick, wishes)) {
    return [
      `With ${draws} draws the share could be as low as ${percent(pick.metShareLow)} (95 % confidence). Run it again with --draws 200 or more.`,
    ];
  }
  const obstacles: string[] = [];
  const wish = pick.hardestWish;
  if (wish === 'frameShare') {
    obstacles.push(
      `Even the cheapest settings use ${number(pick.scores.loadPct.value)} % of the frame time; the wish is at most ${number(100 * wishes.frameShare)} %. Lower the frame rate or allow a larger share.`,
    );
  } else {
    obstacles.push(
      `Hardest to meet is the wish for ${WISH_WORDS[wish]}: at most ${wishes[wish]} ${UNITS[wish]}; with the nearest settings expect ${number(pick.scores[wish].value)}, and up to ${number(pick.held[wish])} in 19 of 20 builds.`,
    );
    for (const other of DRAW_WISHES) {
      if (other === wish || pick.held[other] <= wishes[other]) continue;
      obstacles.push(
        `Also missed, ${WISH_WORDS[other]}: up to ${number(pick.held[other])} in 19 of 20 builds against ${wishes[other]} ${UNITS[other]}.`,
      );
    }
  }
  if (best) obstacles.push(`Try first: ${best.change}.`);
  return obstacles;
}
