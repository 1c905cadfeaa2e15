import { VALUE_COUNT } from '../../protocol/frame.ts';
import { ESP32_TOP_GROWTH, sdAt } from '../../sim/adc/noise.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { RawRows } from './evidence.ts';
import { type Bursts, burstsOf } from './features/bursts.ts';
import { missingCodesOf, oddShareOf, repeatsOf, saturationOf } from './features/codes.ts';
import { strongestTone, type Tone } from './features/spectrum.ts';
import { medianOf, quantileOf, robustSdOf, sortedOf } from './features/statistics.ts';
import { type TwoLevels, twoLevelsOf } from './features/two-levels.ts';
import { type BadPlace, badPlaceOf, type Isolated, isolatedOf, smoothOf } from './features/wrong-readings.ts';

/** Readings farther off than this many standard deviations are wrong: chance alone gives one in 10⁹ (normal law). */
export const WRONG_SIGMAS = 6;
/** Spread of the noise between fingers of one build, as in the models (assumed there). */
export const NOISE_SPREAD = 1.25;

/** Up to here the hand's own tremor reaches, Hz (6-12: Lakie 2015). */
const TREMOR_TO_HZ = 13;

/** Share by which five paces may miss a frame's period and still make an even row. */
const EVEN = 0.02;

/** Everything that one channel's raw frames of one passage show. */
export interface RawLook {
  readings: number;
  frames: number;
  rateHz: number;
  median: number;
  /** Of the frames, their noise smoothed away, 2 % lie below and 2 % above. */
  low: number;
  high: number;
  bursts: Bursts;
  /** Standard deviation of a single reading within a frame, counts. */
  ownSd: number;
  /** What the rig's plan allows of it, counts. */
  plannedSd: number;
  /** Standard deviation of whole frames about their neighbourhood of 1 s or so: hum, wander, tremor; counts. */
  frameSd: number;
  oddShare: number;
  missing: number[];
  saturation: { atBottom: number; atTop: number };
  repeats: { longest: number; share: number; value: number };
  isolated: Isolated;
  place: BadPlace | undefined;
  twoLevels: TwoLevels | undefined;
  /** Strongest tone above the hand's tremor, up to half the rate. */
  tone: Tone | undefined;
  /** Values a second in which the tone was looked for: readings where they come at an even pace, else whole frames. */
  toneRateHz: number;
  /** Mean of the first reading of each frame minus the frame's median, counts; wild ones count as the limit. */
  firstOff: number;
}

export function lookAtRaw(raw: RawRows, rig: Rig): RawLook {
  const bursts = burstsOf(raw);
  const frames = bursts.middle.length;
  const sorted = sortedOf(raw.counts);
  const median = quantileOf(sorted, 0.5);
  const growth = rig.board === 'esp32' ? ESP32_TOP_GROWTH : 0;
  const plannedSd = NOISE_SPREAD * sdAt(median, rig.noise.sdCounts, growth);
  const limit = WRONG_SIGMAS * Math.max(bursts.ownSd, 1);
  const rateHz = frames > 1 ? (frames - 1) / (raw.timesS[frames - 1]! - raw.timesS[0]!) : 0;
  const [from, to] = evenStretch(raw.timesS);
  // Five readings spread over the whole frame make one even row of five times the rate.
  const isPaced = Math.abs(VALUE_COUNT * raw.paceS * rateHz - 1) < EVEN;
  const toneRateHz = isPaced ? VALUE_COUNT * rateHz : rateHz;
  const row = isPaced
    ? Float64Array.from(raw.counts.subarray(VALUE_COUNT * from, VALUE_COUNT * to))
    : bursts.middle.slice(from, to);
  let first = 0;
  for (let f = 0; f < frames; f++) {
    first += Math.max(-limit, Math.min(limit, bursts.apart[VALUE_COUNT * f]!));
  }
  const smooth = smoothOf(bursts.middle);
  const levels = sortedOf(smooth);
  return {
    readings: raw.counts.length,
    frames,
    rateHz,
    median,
    low: quantileOf(levels, 0.02),
    high: quantileOf(levels, 0.98),
    bursts,
    ownSd: bursts.ownSd,
    plannedSd,
    frameSd: robustSdOf(bursts.middle.map((m, f) => m - smooth[f]!)),
    oddShare: oddShareOf(raw.counts),
    missing: missingCodesOf(raw.counts),
    saturation: saturationOf(raw.counts),
    repeats: repeatsOf(raw.counts),
    isolated: isolatedOf(bursts, limit),
    place: badPlaceOf(bursts, limit),
    twoLevels: twoLevelsOf(bursts.middle),
    tone: strongestTone(row, toneRateHz, TREMOR_TO_HZ, toneRateHz / 2),
    toneRateHz,
    firstOff: frames > 0 ? first / frames : 0,
  };
}

/** Longest stretch of frames at even times: lost ones would make tones where there are none. */
function evenStretch(timesS: Float64Array): [from: number, to: number] {
  if (timesS.length < 3) return [0, 0];
  const usual = medianOf(timesS.slice(1).map((t, i) => t - timesS[i]!));
  let best: [number, number] = [0, 0];
  let from = 0;
  for (let i = 1; i <= timesS.length; i++) {
    if (i < timesS.length && Math.abs(timesS[i]! - timesS[i - 1]! - usual) < 0.25 * usual) continue;
    if (i - from > best[1] - best[0]) best = [from, i];
    from = i;
  }
  return best;
}
