import type { Settings } from '../../firmware/chain/settings.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { HAND_SCORES, worstRatio } from './hand-scores.ts';
import type { Runner } from './runner.ts';

/** Draws per round: settings are given up between rounds only, so the outcome does not depend on threads. */
export const ROUND_DRAWS = 16;
/** Settings that run first to the end and set the mark for the others. */
const PACE_SETTERS = 12;

export interface RaceJob {
  rig: Rig;
  rest?: RestRecording;
  seed: number;
  settings: Settings[];
  draws: number;
  /** Draws in which the wishes may be missed: settings are ranked by the ratio they reach in all the others. */
  allowedMisses: number;
  /** How many of the best must come out right; the rest may be given up. */
  keep: number;
  /** False runs every setting over every draw. */
  giveUp: boolean;
  onProgress?: (done: number, total: number) => void;
}

/** What became of one setting. */
export interface Entry {
  index: number;
  /** Draws that were run; fewer than asked for if it was given up. */
  draws: number;
  /** HAND_SCORES numbers a draw, in the order of `drawNumbers`. */
  scores: Float64Array;
  ratios: Float64Array;
}

export interface RaceResult {
  entries: Entry[];
  /** Indices of settings that ran all draws, best first. */
  ranking: number[];
  evaluations: number;
}

/**
 * Ratio that all but `allowed` draws reach or better: the (allowed + 1)-th largest.
 * @param count how many ratios from the start are valid, > allowed
 */
export function heldRatio(ratios: Float64Array, count: number, allowed: number): number {
  const sorted = ratios.slice(0, count).sort();
  return sorted[count - 1 - allowed];
}

/**
 * Runs settings over draws and ranks them by the worst wish ratio that they hold in all but a few draws.
 * A setting is given up as soon as more draws than allowed went worse than the `keep`-th best final result so
 * far: it can no longer come among the best, whatever the remaining draws bring. So the best `keep` are the
 * same as without giving up.
 */
export async function race(job: RaceJob, runner: Runner): Promise<RaceResult> {
  const { rig, rest, seed, settings, draws, allowedMisses } = job;
  const entries: Entry[] = settings.map((_, index) => ({
    index,
    draws: 0,
    scores: new Float64Array(0),
    ratios: new Float64Array(draws),
  }));
  let evaluations = 0;
  const first = Math.min(ROUND_DRAWS, draws);

  async function advance(indices: number[], from: number, to: number): Promise<void> {
    if (indices.length === 0 || from >= to) return;
    const numbers = Array.from({ length: to - from }, (_, i) => from + i);
    const chosen = indices.map((i) => settings[i]);
    const result = await runner.run({
      rig,
      seed,
      draws: numbers,
      settings: chosen,
      ...(rest ? { rest } : {}),
    });
    evaluations += indices.length * numbers.length * rig.fingers.length;
    indices.forEach((index, column) => {
      const entry = entries[index];
      const scores = new Float64Array(to * HAND_SCORES);
      scores.set(entry.scores);
      for (let d = from; d < to; d++) {
        const at = ((d - from) * indices.length + column) * HAND_SCORES;
        scores.set(result.subarray(at, at + HAND_SCORES), d * HAND_SCORES);
        entry.ratios[d] = worstRatio(scores, d * HAND_SCORES, rig.wishes);
      }
      entry.scores = scores;
      entry.draws = to;
    });
  }

  const finished = (): number[] =>
    entries
      .filter((entry) => entry.draws === draws)
      .map((entry) => entry.index)
      .sort((a, b) => result(a) - result(b) || a - b);
  const results = new Map<number, number>();
  const result = (index: number): number => {
    const known = results.get(index);
    if (known !== undefined) return known;
    const value = heldRatio(entries[index].ratios, draws, allowedMisses);
    results.set(index, value);
    return value;
  };

  const everyone = settings.map((_, i) => i);
  const total = draws;
  await advance(everyone, 0, first);
  job.onProgress?.(first, total);
  if (job.giveUp) {
    const allowedFirst = Math.floor((allowedMisses * first) / draws);
    const early = everyone
      .map((index) => ({ index, ratio: heldRatio(entries[index].ratios, first, allowedFirst) }))
      .sort((a, b) => a.ratio - b.ratio || a.index - b.index)
      .slice(0, PACE_SETTERS)
      .map((e) => e.index);
    await advance(early, first, draws);
  }
  let alive = everyone.filter((index) => entries[index].draws < draws);
  for (let from = first; from < draws; from += ROUND_DRAWS) {
    if (job.giveUp) {
      const ranked = finished();
      if (ranked.length >= job.keep) {
        const mark = result(ranked[job.keep - 1]);
        alive = alive.filter((index) => {
          const { ratios, draws: run } = entries[index];
          let worse = 0;
          for (let d = 0; d < run; d++) if (ratios[d] > mark) worse++;
          return worse <= allowedMisses;
        });
      }
    }
    const to = Math.min(draws, from + ROUND_DRAWS);
    await advance(alive, from, to);
    job.onProgress?.(to, total);
  }
  return { entries, ranking: finished(), evaluations };
}
