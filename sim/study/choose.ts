import type { Settings } from '../../firmware/chain/settings.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { exampleOf } from './example.ts';
import { defaultGrid } from './grid.ts';
import { addedLag, HAND, HAND_SCORES } from './hand-scores.ts';
import { NOT_MODELLED } from './not-modelled.ts';
import { type Entry, type RaceResult, ROUND_DRAWS, race } from './race.ts';
import { loadPctOf, MET_SHARE, rate } from './rate.ts';
import type { Assumption, ChooseResult, RatedSettings } from './result.ts';
import type { Runner } from './runner.ts';
import { settingsId } from './settings-id.ts';
import { paretoFront } from './stats/pareto.ts';
import { tableOf } from './table.ts';
import { verdictOf } from './verdict.ts';
import { whatIf } from './what-if.ts';

/** Settings told about besides the pick. */
const RUNNERS_UP = 5;
export const DEFAULT_DRAWS = 200;
const WHAT_IF_DRAWS = 32;

export interface ChooseJob {
  rig: Rig;
  /** Path of the rig file, for the result. */
  file: string;
  version: string;
  seed: number;
  rest?: RestRecording;
  /** Path of the recording if it was given beside the rig file, for commands that say it again. */
  restFile?: string;
  /** Builds drawn from the tolerances; 200 if left out. */
  draws?: number;
  /** Settings to choose from; the default grid if left out. */
  settings?: Settings[];
  /** False: run every setting over every draw, and find the same pick more slowly. */
  giveUp?: boolean;
  assumptions?: Assumption[];
  warnings?: string[];
  onProgress?: (stage: 'settings' | 'what-if', done: number, total: number) => void;
}

/**
 * The main job: which settings suit a build, how sure that is, and what would help.
 * The result depends on the rig, the rest recording and the seed alone, not on the number of threads.
 */
export async function choose(job: ChooseJob, runner: Runner): Promise<ChooseResult> {
  const { rig, rest, seed } = job;
  const draws = job.draws ?? DEFAULT_DRAWS;
  const all = job.settings ?? defaultGrid();
  const fitting = all.filter((s) => loadPctOf(s, rig) <= 100 * rig.wishes.frameShare);
  // If nothing fits the frame time the cheapest settings stand for what could be had.
  const settings = fitting.length > 0 ? fitting : [cheapest(all, rig)];
  const allowedMisses = Math.floor((1 - MET_SHARE) * draws + 1e-9);
  const result = await race(
    {
      rig,
      seed,
      settings,
      draws,
      allowedMisses,
      keep: RUNNERS_UP + 1,
      giveUp: job.giveUp ?? true,
      ...(rest ? { rest } : {}),
      onProgress: (done, total) => job.onProgress?.('settings', done, total),
    },
    runner,
  );
  const rated = result.ranking
    .slice(0, RUNNERS_UP + 1)
    .map((index) => rate(settings[index], result.entries[index], rig, seed, allowedMisses))
    // What only shows over all draws together (rare false gestures) may still change the order.
    .sort((a, b) => a.worstRatio - b.worstRatio);
  const pick = rated[0];
  const entryOf = (id: string) => result.entries[settings.findIndex((s) => settingsId(s) === id)];
  const points = tradeOff(settings, result);
  const front = paretoFront(
    points.map((p) => p.jitterPct),
    points.map((p) => p.lagMs),
  );
  const changes = await whatIf(
    {
      rig,
      seed,
      settings: all,
      draws: Math.min(WHAT_IF_DRAWS, draws),
      ...(rest ? { rest } : {}),
      onProgress: (done, total) => job.onProgress?.('what-if', done, total),
    },
    runner,
  );
  const pictures = exampleOf(rig, rest, seed, medianDraw(entryOf(pick.id)), pick.settings);
  return {
    command: 'choose',
    version: job.version,
    rig: {
      name: rig.name,
      file: job.file,
      side: rig.hand.side,
      board: rig.board,
      frameRateHz: rig.frameRateHz,
      fingers: rig.fingers.map((f) => f.name),
    },
    seed,
    draws,
    screeningDraws: Math.min(ROUND_DRAWS, draws),
    settingsTried: settings.length,
    settingsTooSlow: all.length - fitting.length,
    evaluations: result.evaluations,
    restFile: job.restFile ?? null,
    wishes: rig.wishes,
    verdict: verdictOf(pick, rig, draws, changes),
    pick,
    runnersUp: rated.slice(1),
    pareto: front.map((i) => points[i]),
    whatIf: changes,
    lagParts: lagParts(pick, rig),
    example: pictures.example,
    rest: pictures.rest,
    table: tableOf(settings, result.entries, rig),
    assumptions: job.assumptions ?? [],
    notModelled: NOT_MODELLED,
    warnings: job.warnings ?? [],
  };
}

function cheapest(settings: Settings[], rig: Rig): Settings {
  return settings.reduce((best, s) => (loadPctOf(s, rig) < loadPctOf(best, rig) ? s : best));
}

/** Mean of one score over the first draws, which all settings ran. */
function screened(entry: Entry, offset: number): number {
  const draws = Math.min(ROUND_DRAWS, entry.draws);
  let sum = 0;
  for (let d = 0; d < draws; d++) sum += entry.scores[d * HAND_SCORES + offset];
  return sum / draws;
}

function tradeOff(settings: Settings[], result: RaceResult) {
  return settings.map((s, i) => ({
    id: settingsId(s),
    jitterPct: screened(result.entries[i], HAND.jitterPct),
    lagMs: screened(result.entries[i], HAND.lagMs),
  }));
}

/** The draw whose worst ratio is the median: neither a lucky nor an unlucky build. */
function medianDraw(entry: Entry): number {
  const order = Array.from({ length: entry.draws }, (_, d) => d).sort(
    (a, b) => entry.ratios[a] - entry.ratios[b] || a - b,
  );
  return order[order.length >> 1];
}

function lagParts(pick: RatedSettings, rig: Rig): ChooseResult['lagParts'] {
  const { waitMs, boardMs, fingerReadMs } = addedLag(pick.settings, rig);
  const readMs = (rig.fingers.length - 1) * fingerReadMs;
  const rest = pick.scores.lagMs.value - waitMs - boardMs - readMs;
  return [
    { part: 'mechanics, wiring and smoothing', ms: rest },
    { part: 'waiting for the next frame (half a frame)', ms: waitMs },
    { part: 'reading the other fingers', ms: readMs },
    { part: 'smoothing and sending on the board', ms: boardMs },
  ];
}
