import type { Settings } from '../../firmware/chain/settings.ts';
import type { Wishes } from '../rig/rig.ts';
import type { ScoreName } from './score-names.ts';

/** A score's expected value (mean over draws) with its 95 % bootstrap interval. */
export interface ScoreValue {
  value: number;
  low: number;
  high: number;
  unit: string;
}

/** Settings with all that the study found out about them. */
export interface RatedSettings {
  /** Short stable text form of the settings, unique, for instance `os8 clip20 adaptive1.2/4 still0.6`. */
  id: string;
  settings: Settings;
  scores: Record<ScoreName, ScoreValue>;
  /** Share of the draws in which every wish is met, with the lower 95 % Wilson bound. */
  metShare: number;
  metShareLow: number;
  /** Score divided by wish, of the wish that is hardest to meet, reached or bettered in 95 % of draws; <= 1 meets. */
  worstRatio: number;
  /** That wish. */
  hardestWish: keyof Wishes;
  /** Of each wish: the value kept to in 95 % of the draws (frameShare: 0-1, the same in all). */
  held: Record<keyof Wishes, number>;
  /**
   * metShare >= 0.95, metShareLow >= 0.90, the frame load and the mean rate of false gestures over all draws within
   * their wishes.
   */
  meets: boolean;
}

/** A point of jitter against lag: means over the screening draws. */
export interface TradeOffPoint {
  id: string;
  jitterPct: number;
  lagMs: number;
}

/** One change of the build, simulated again with the same draws and seeds. */
export interface WhatIf {
  /** What is changed, in words: `capacitor at the pin 100 nF -> 1 µF`. */
  change: string;
  /** Rig path changed, for instance `wiring.capacitor`. */
  path: string;
  from: string;
  to: string;
  /** Best settings for the changed build. */
  settings: Settings;
  settingsId: string;
  /** Best settings for the build as it is, by the same rule. */
  beforeId: string;
  /** Worst wish ratio of the changed build minus that of the build as it is; negative = better. */
  ratioChange: ScoreValue;
  jitterChangePct: ScoreValue;
  lagChangeMs: ScoreValue;
  falsePerHour: { before: number; after: number };
  /** True when the interval of ratioChange excludes zero. */
  clear: boolean;
}

/** One row of the full table: means over the draws that the settings were run on. */
export interface TableRow {
  id: string;
  settings: Settings;
  /** Draws run before the settings were given up or finished. */
  draws: number;
  scores: Record<ScoreName, number>;
  /** Share of those draws in which every wish was met. */
  metShare: number;
}

/** The hardest (fastest) grasp of the worst finger in the median draw, for the plot. */
export interface ExampleTraces {
  finger: string;
  draw: number;
  timeMs: number[];
  truthPct: number[];
  rawPct: number[];
  smoothedPct: number[];
}

/** Closure at rest, raw (single reading) and smoothed, as a histogram about the mean. */
export interface RestHistogram {
  finger: string;
  binEdgesPct: number[];
  raw: number[];
  smoothed: number[];
  rawSdPct: number;
  smoothedSdPct: number;
}

export interface Assumption {
  path: string;
  label: string;
  value: string;
  /** `rig file` when the maker gave it, else datasheet, measured, computed or assumed. */
  kind: string;
  source: string;
}

/** Everything that `choose` says. Plain data: the terminal, the report and --json show the same object. */
export interface ChooseResult {
  command: 'choose';
  version: string;
  rig: { name: string; file: string; side: string; board: string; frameRateHz: number; fingers: string[] };
  seed: number;
  draws: number;
  screeningDraws: number;
  settingsTried: number;
  /** Settings that do not fit the frame time and were not simulated. */
  settingsTooSlow: number;
  evaluations: number;
  /** Recording of the noise given on the command line, or null. */
  restFile: string | null;
  wishes: Wishes;
  verdict: {
    meets: boolean;
    /** One sentence. */
    headline: string;
    /** A few more, plain words with numbers. */
    details: string[];
    /** If no settings meet the wishes: what stands in the way, one sentence each. */
    obstacles: string[];
  };
  pick: RatedSettings;
  runnersUp: RatedSettings[];
  pareto: TradeOffPoint[];
  whatIf: WhatIf[];
  /** Parts of the pick's lag, ms; they sum to its lagMs. */
  lagParts: { part: string; ms: number }[];
  example: ExampleTraces;
  rest: RestHistogram;
  table: TableRow[];
  assumptions: Assumption[];
  notModelled: string[];
  warnings: string[];
}
