import { fourier } from '../../../sim/adc/spectrum.ts';
import { meanOf } from './statistics.ts';

/** A tone in a row of values at even times. */
export interface Tone {
  /** Frequency as the row sees it, 0 to half its rate, Hz. */
  seenHz: number;
  /** Amplitude, in the unit of the values. */
  amplitude: number;
  /** Power over the mean power of a bin of the floor; chance alone gives ln(bins) plus a few. */
  overFloor: number;
}

/** Padding: the peak is found on a grid this many times finer than the row's own. */
const PADDING = 4;
/** Bins of the row's own grid beside nought that hold its drift. */
const DRIFT_BINS = 4;

/**
 * Strongest tone of a row between two frequencies. A Hann window keeps far tones from leaking in; the peak is refined
 * by the parabola through its three highest grid points.
 * @param values at even times
 * @param rateHz values a second
 * @returns undefined where the row is too short for the band
 */
export function strongestTone(
  values: Float64Array,
  rateHz: number,
  lowHz: number,
  highHz: number,
): Tone | undefined {
  const n = values.length;
  if (n < 32) return undefined;
  let size = 1;
  while (size < PADDING * n) size *= 2;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  const mean = meanOf(values);
  let windowSum = 0;
  for (let i = 0; i < n; i++) {
    const hann = 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n);
    windowSum += hann;
    re[i] = (values[i]! - mean) * hann;
  }
  fourier(re, im, -1);
  const binHz = rateHz / size;
  const first = Math.max(Math.ceil(lowHz / binHz), Math.ceil((DRIFT_BINS * size) / n));
  const last = Math.min(Math.floor(highHz / binHz), size / 2);
  if (last <= first) return undefined;
  const power = (k: number) => re[k]! ** 2 + im[k]! ** 2;
  let best = first;
  const powers: number[] = [];
  for (let k = Math.ceil((DRIFT_BINS * size) / n); k <= size / 2; k++) powers.push(power(k));
  for (let k = first; k <= last; k++) if (power(k) > power(best)) best = k;
  // Median of an exponential law is ln 2 of its mean.
  const floor = powers.sort((a, b) => a - b)[powers.length >> 1]! / Math.LN2;
  const shift = best > 0 && best < size / 2 ? peakShift(power(best - 1), power(best), power(best + 1)) : 0;
  // At half the rate a tone has all its power in one bin instead of two.
  const parts = best >= size / 2 - PADDING ? 1 : 2;
  return {
    seenHz: (best + shift) * binHz,
    amplitude: (parts * Math.sqrt(power(best))) / windowSum,
    overFloor: floor > 0 ? power(best) / floor : Infinity,
  };
}

/** Place of the top of the parabola through three logarithms, in grid steps from the middle one. */
function peakShift(left: number, top: number, right: number): number {
  if (!(left > 0 && right > 0)) return 0;
  const l = Math.log(left);
  const t = Math.log(top);
  const r = Math.log(right);
  const bend = l - 2 * t + r;
  return bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (l - r)) / bend)) : 0;
}

/**
 * All frequencies that a row at this rate shows as `seenHz`.
 * @returns rising, up to `highestHz`
 */
export function aliasesOf(seenHz: number, rateHz: number, highestHz: number): number[] {
  const all: number[] = [];
  for (let k = 0; k * rateHz - seenHz <= highestHz; k++) {
    if (k > 0) all.push(k * rateHz - seenHz);
    if (k * rateHz + seenHz <= highestHz) all.push(k * rateHz + seenHz);
  }
  return all.sort((a, b) => a - b);
}

/** Mains frequencies and how far they may be off, Hz: 0.5 %, as in the models; a board's clock adds little. */
const MAINS_HZ = [50, 60] as const;
const MAINS_OFF = 0.01;

/** What a tone may be: the mains, its double, or any of its aliases. */
export interface HumName {
  /** Frequencies that the tone most likely has, Hz: two where both lie near the mains and the row cannot tell them. */
  likelyHz: number[];
  /** 50 or 60 where that is the mains or its double; undefined = something else. */
  mainsHz: 50 | 60 | undefined;
  /** Other frequencies that would look the same, Hz, up to 200. */
  otherwiseHz: number[];
}

/** Names a tone: of all its aliases the one at the mains, else the lowest. */
export function nameHum(seenHz: number, rateHz: number): HumName {
  const aliases = aliasesOf(seenHz, rateHz, 200);
  for (const factor of [1, 2]) {
    for (const mainsHz of MAINS_HZ) {
      const wanted = factor * mainsHz;
      const near = aliases.filter((hz) => Math.abs(hz - wanted) <= MAINS_OFF * wanted);
      if (near.length === 0) continue;
      // Two that agree to 0.2 Hz are one for everybody.
      const likelyHz = near[near.length - 1]! - near[0]! < 0.2 ? near.slice(0, 1) : near;
      return { likelyHz, mainsHz, otherwiseHz: aliases.filter((other) => !near.includes(other)) };
    }
  }
  return { likelyHz: aliases.slice(0, 1), mainsHz: undefined, otherwiseHz: aliases.slice(1) };
}
