// Host only: everything that the board's chain needs to know about one finger, derived from settings.
import {
  adaptiveRise,
  exponentialGain,
  oneEuroRise,
  pctToReading,
  restBase,
  smoothingGain,
} from './constants.ts';
import type { Hysteresis, Settings } from './settings.ts';
import { type Ends, wordGain, wordOffset } from './word-scale.ts';

/** A number above every possible step: a clip with this limit changes nothing. */
export const NO_LIMIT = 1e9;

/** Structure (which stages) and live numbers of one finger's chain, in units of the summed reading. */
export interface ChainConstants {
  median: boolean;
  /** Steps are limited. */
  clipped: boolean;
  /** Steps within a band round the level change nothing. */
  still: boolean;
  /** Low-pass: 0 none, 1 exponential, 2 one euro, 3 adaptive. */
  filter: number;
  /** Hold after the low-pass: 0 none, 1 drag, 2 jump. */
  hold: number;
  limit: number;
  /** Square of `limit`; goes with it. */
  limitSquared: number;
  bandSquared: number;
  /** Exponential gain. */
  gain: number;
  base: number;
  rise: number;
  speedGain: number;
  frameRateHz: number;
  half: number;
  wordGain: number;
  wordOffset: number;
}

/**
 * Derives the constants of one finger.
 * @param settings chain settings in Hz and % of closure
 * @param periodS frame period, s; prepare again when the rate changes
 * @param ends captured ends of the finger
 */
export function prepare(settings: Settings, periodS: number, ends: Ends): ChainConstants {
  const span = Math.abs(ends.closed - ends.open) * settings.oversampling;
  const { despike, lowPass, hysteresis } = settings;
  const half = hysteresis.kind === 'none' ? 0 : pctToReading(hysteresis.widthPct / 2, span);
  const limit = despike.kind === 'clip' ? pctToReading(despike.limitPct, span) : NO_LIMIT;
  const stillHalf = pctToReading(stillPct(hysteresis) / 2, span);
  // A clip inside the band: what it lets through never leaves the band. Said so here, because the chain tests first
  // whether a step is a movement and only then clips it.
  const isStuck = stillHalf > 0 && limit <= stillHalf;
  return {
    clipped: despike.kind === 'clip',
    still: stillHalf > 0,
    median: despike.kind === 'median',
    filter: { none: 0, exponential: 1, oneEuro: 2, adaptive: 3 }[lowPass.kind],
    hold: hysteresis.kind === 'drag' ? 1 : hysteresis.kind === 'step' ? 2 : 0,
    limit,
    limitSquared: limit * limit,
    bandSquared: isStuck ? Number.POSITIVE_INFINITY : stillHalf > 0 ? stillHalf * stillHalf : -1,
    gain: lowPass.kind === 'exponential' ? exponentialGain(lowPass.cutoffHz, periodS) : 1,
    base:
      lowPass.kind === 'oneEuro'
        ? restBase(lowPass.minCutoffHz, periodS)
        : lowPass.kind === 'adaptive'
          ? restBase(lowPass.restCutoffHz, periodS)
          : 1,
    rise:
      lowPass.kind === 'oneEuro'
        ? oneEuroRise(lowPass.beta, periodS, span)
        : lowPass.kind === 'adaptive'
          ? adaptiveRise(lowPass.riseHz, periodS, span)
          : 0,
    speedGain: lowPass.kind === 'oneEuro' ? smoothingGain(lowPass.speedCutoffHz, periodS) : 0,
    frameRateHz: 1 / periodS,
    half: hysteresis.kind === 'still' ? 0 : half,
    wordGain: wordGain(ends.open, ends.closed, settings.oversampling),
    wordOffset: wordOffset(ends.open, ends.closed),
  };
}

/** Full width of the band in which readings change nothing, % of closure; 0 = there is none. */
export function stillPct(hysteresis: Hysteresis): number {
  if (hysteresis.kind === 'none') return 0;
  return hysteresis.kind === 'still' ? hysteresis.widthPct : (hysteresis.stillPct ?? 0);
}
