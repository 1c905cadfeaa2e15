import type { RestRecording } from '../rig/rig.ts';
import { fourier } from './spectrum.ts';

/*
 * A recording at rest as a source of noise. It has one row a frame or so, the simulated board reads up to 32
 * times a frame: the recording must therefore be split into what carries over from row to row (hum as the
 * frame rate sees it, wander, drift), replayed at frame times, and what does not, drawn anew for every reading.
 *
 * The split is by spectrum: the flat floor belongs to the independent part, what stands above it to the slow
 * part (Wiener gain, amplitude form, so that the powers of both parts add up to the recording's).
 * What it cannot know: noise that is correlated within a frame but not between frames is taken as independent,
 * and averages away better than in truth. And the rows must be single readings: means of several readings
 * hide the read noise.
 */

/** A bin belongs to the slow part only if its neighbourhood stands this much above the floor. */
const ABOVE_FLOOR = 1.5;
/** Rates closer than this share count as equal: then rows are replayed as they are, not between each other. */
const SAME_RATE = 0.05;
/** Fewer rows cannot be split. */
const LEAST_ROWS = 64;

export interface RestNoise {
  channels: number;
  channelNames: string[];
  rows: number;
  /** Standard deviation of each channel's recording, counts. */
  sdCounts: Float64Array;
  /**
   * Slow part at a frame, counts about zero. Runs through the recording forwards, then backwards, and so on,
   * so that a drift does not jump.
   * @param frame 0, 1, 2, ...
   * @param framePeriodS time from frame to frame
   * @param startRow row of frame 0 (a scenario's draw), 0 to rows - 1
   */
  slowAt(channel: number, frame: number, framePeriodS: number, startRow: number): number;
  /**
   * Independent part of one reading, counts about zero: one of the recording's own residues.
   * @param u one uniform draw, 0-1
   */
  fastAt(channel: number, u: number): number;
}

/**
 * Splits a recording.
 * @throws RangeError when a channel has too few rows
 */
export function createRestNoise(recording: RestRecording): RestNoise {
  const rows = recording.counts[0]?.length ?? 0;
  if (rows < LEAST_ROWS)
    throw new RangeError(
      `${recording.file} has ${rows} rows; a recording at rest needs at least ${LEAST_ROWS} (better 2000). Record for longer.`,
    );
  const parts = recording.counts.map(splitChannel);
  const turn = 2 * rows - 2;
  function rowAt(row: number): number {
    const r = row % turn;
    return r < rows ? r : turn - r;
  }
  return {
    channels: parts.length,
    channelNames: recording.channelNames,
    rows,
    sdCounts: Float64Array.from(parts, (part) => part.sd),
    slowAt(channel, frame, framePeriodS, startRow) {
      const slow = parts[channel].slow;
      const rate = framePeriodS / recording.periodS;
      if (Math.abs(rate - 1) < SAME_RATE) return slow[rowAt(startRow + frame)];
      const at = startRow + frame * rate;
      const below = Math.floor(at);
      const a = slow[rowAt(below)];
      return a + (at - below) * (slow[rowAt(below + 1)] - a);
    },
    fastAt(channel, u) {
      return parts[channel].fast[Math.floor(u * rows)];
    },
  };
}

interface Split {
  sd: number;
  slow: Float64Array;
  fast: Float64Array;
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const v of values) sum += v;
  return sum / values.length;
}

function varianceOf(values: Float64Array): number {
  const mean = meanOf(values);
  let sum = 0;
  for (const v of values) sum += (v - mean) ** 2;
  return sum / values.length;
}

function splitChannel(counts: Float64Array): Split {
  const rows = counts.length;
  const mean = meanOf(counts);
  const variance = varianceOf(counts);
  const slow = slowPart(counts.map((c) => c - mean));
  const slowMean = meanOf(slow);
  for (let i = 0; i < rows; i++) slow[i] -= slowMean;
  const fast = slow.map((s, i) => counts[i] - mean - s);
  const fastMean = meanOf(fast);
  // The residue still leans on the slow part; its size is set so that the two, drawn independently, add up.
  const left = Math.max(variance - varianceOf(slow), 0);
  const scale = left === 0 ? 0 : Math.sqrt(left / Math.max(varianceOf(fast), 1e-12));
  return { sd: Math.sqrt(variance), slow, fast: fast.map((f) => (f - fastMean) * scale) };
}

/** Recording without its spectral floor. It is mirrored first, so that a drift has no edge. */
function slowPart(centred: Float64Array): Float64Array {
  const rows = centred.length;
  const re = new Float64Array(2 * rows);
  const im = new Float64Array(2 * rows);
  for (let i = 0; i < rows; i++) re[i] = re[2 * rows - 1 - i] = centred[i];
  fourier(re, im, -1);
  const power = new Float64Array(rows + 1);
  for (let f = 0; f <= rows; f++) power[f] = re[f] * re[f] + im[f] * im[f];
  const floor = floorOf(smoothed(power, Math.ceil(rows / 32)));
  const near = smoothed(power, Math.max(8, Math.ceil(rows / 64)));
  for (let f = 0; f <= rows; f++) {
    const gain = near[f] > ABOVE_FLOOR * floor ? Math.sqrt(1 - floor / near[f]) : 0;
    re[f] *= gain;
    im[f] *= gain;
    if (f === 0 || f === rows) continue;
    re[2 * rows - f] *= gain;
    im[2 * rows - f] *= gain;
  }
  fourier(re, im, 1);
  return re.slice(0, rows).map((x) => x / (2 * rows));
}

/** Mean over `reach` neighbours on both sides, fewer at the ends. */
function smoothed(power: Float64Array, reach: number): Float64Array {
  const sums = new Float64Array(power.length + 1);
  for (let i = 0; i < power.length; i++) sums[i + 1] = sums[i] + power[i];
  return power.map((_, i) => {
    const from = Math.max(0, i - reach);
    const to = Math.min(power.length, i + reach + 1);
    return (sums[to] - sums[from]) / (to - from);
  });
}

/** Level of the flat part of a smoothed spectrum: its lowest tenth. */
function floorOf(power: Float64Array): number {
  const sorted = power.slice().sort();
  return sorted[Math.floor(sorted.length / 10)];
}
