import { boardFacts } from '../../firmware/boards/boards.ts';
import { frameCost } from '../../firmware/boards/cost.ts';
import type { Settings } from '../../firmware/chain/settings.ts';
import { baseJointDeg } from '../hand/closure.ts';
import type { Rig, Wishes } from '../rig/rig.ts';
import { METRIC, METRICS } from './metrics.ts';

/** Scores of one setting in one draw, over all fingers, in the units of SCORES; one row of numbers. */
export const HAND = {
  jitterPct: 0,
  lagMs: 1,
  lagCorrelationMs: 2,
  errorPct: 3,
  overshootPct: 4,
  endMissPct: 5,
  stepPct: 6,
  falsePerHour: 7,
  recoveryMs: 8,
  jitterDeg: 9,
} as const;
export const HAND_SCORES = 10;

/** Delays that come on top of what a trace shows, ms. */
export interface AddedLag {
  /** Half a frame: how long a value waits on average until the next one replaces it. */
  waitMs: number;
  /** The board's own time for smoothing and sending. */
  boardMs: number;
  /** Readings of one finger, during which the other fingers wait. */
  fingerReadMs: number;
}

/** Delays of a setting on a rig. */
export function addedLag(settings: Settings, rig: Rig): AddedLag {
  const cost = frameCost({ ...settings, fingers: rig.fingers.length }, rig.board);
  return {
    waitMs: 500 / rig.frameRateHz,
    boardMs: cost.cpuMs,
    fingerReadMs: (settings.oversampling * boardFacts(rig.board).readUs) / 1000,
  };
}

/**
 * Puts the rows of the fingers together: the worst finger, or all of them for the tracking error. (With up to
 * 19 fingers the 95th percentile by nearest rank is the largest value.)
 * @param rows rows[finger], METRICS numbers per setting
 * @param added per setting
 * @param out filled: HAND_SCORES numbers per setting
 */
export function combineFingers(rows: Float64Array[], added: AddedLag[], rig: Rig, out: Float64Array): void {
  const fingers = rows.length;
  const periodS = 1 / rig.frameRateHz;
  const degrees = rig.fingers.map((finger) => baseJointDeg(finger.name));
  const frameMs = periodS * 1000;
  for (let s = 0; s < added.length; s++) {
    const { waitMs, boardMs, fingerReadMs } = added[s];
    const at = s * HAND_SCORES;
    out.fill(0, at, at + HAND_SCORES);
    let lag = -Infinity;
    let lagCorrelation = -Infinity;
    let squares = 0;
    for (let i = 0; i < fingers; i++) {
      const row = rows[i];
      const from = s * METRICS;
      const laterMs = waitMs + boardMs + (fingers - 1 - i) * fingerReadMs;
      lag = Math.max(lag, row[from + METRIC.lag] * frameMs + laterMs);
      lagCorrelation = Math.max(lagCorrelation, row[from + METRIC.lagCorrelation] * frameMs + laterMs);
      squares += row[from + METRIC.squareError];
      raise(out, at + HAND.jitterPct, 100 * row[from + METRIC.jitter]);
      raise(out, at + HAND.jitterDeg, degrees[i] * row[from + METRIC.jitter]);
      raise(out, at + HAND.overshootPct, 100 * row[from + METRIC.overshoot]);
      raise(out, at + HAND.endMissPct, 100 * row[from + METRIC.endMiss]);
      raise(out, at + HAND.stepPct, 100 * row[from + METRIC.step]);
      raise(out, at + HAND.falsePerHour, row[from + METRIC.falsePerHour]);
      raise(out, at + HAND.recoveryMs, frameMs * row[from + METRIC.recovery]);
    }
    out[at + HAND.lagMs] = lag;
    out[at + HAND.lagCorrelationMs] = lagCorrelation;
    out[at + HAND.errorPct] = 100 * Math.sqrt(squares / fingers);
  }
}

function raise(out: Float64Array, at: number, value: number): void {
  // A finger without a number leaves the hand without one.
  if (value > out[at] || Number.isNaN(value)) out[at] = value;
}

/** Wishes that a draw is measured against, in the order in which ties are broken. */
export const DRAW_WISHES = ['lagMs', 'jitterPct', 'falsePerHour', 'stepPct', 'endMissPct'] as const;
export type DrawWish = (typeof DRAW_WISHES)[number];

/** So few false gestures are none: one in a hundred years. The wish may be 0, and 0/0 is no ratio. */
const NONE_PER_HOUR = 1e-6;

/**
 * How far a score is from its wish: 1 = just met, below = better. False gestures span many powers of ten, so
 * beyond the wish each power counts as one.
 */
export function wishRatio(wish: DrawWish, value: number, wishes: Wishes): number {
  const ratio = value / (wish === 'falsePerHour' ? Math.max(wishes[wish], NONE_PER_HOUR) : wishes[wish]);
  return wish === 'falsePerHour' && ratio > 1 ? 1 + Math.log10(ratio) : ratio;
}

/** The ratio of the wish that is hardest to meet in one draw. */
export function worstRatio(scores: Float64Array, at: number, wishes: Wishes): number {
  let worst = 0;
  for (const wish of DRAW_WISHES) worst = Math.max(worst, wishRatio(wish, scores[at + HAND[wish]], wishes));
  // A score that is no number counts as hopeless, not as met.
  return Number.isNaN(worst) ? Number.POSITIVE_INFINITY : worst;
}
