import { VALUE_COUNT } from '../../../protocol/frame.ts';
import type { RawRows } from '../evidence.ts';
import { medianOf, sdOf } from './statistics.ts';

/**
 * Raw frames taken apart: what differs between the readings of a frame (the converter's own noise, single wrong
 * readings) and what the frames as a whole do (movement, hum, wander).
 */
export interface Bursts {
  timesS: Float64Array;
  /** Median of each frame's five readings, counts. */
  middle: Float64Array;
  /** Each reading minus its frame's median, counts; five a frame. */
  apart: Float64Array;
  /** Standard deviation of a single reading within a frame, counts, wild frames left out. */
  ownSd: number;
}

/** Median of the chi-squared law with 3 degrees of freedom, 2.36597, over 3: what half of the variances of four lie below. */
const MEDIAN_VARIANCE = 0.78866;

/** @param raw whole frames only */
export function burstsOf(raw: RawRows): Bursts {
  const frames = raw.timesS.length;
  const middle = new Float64Array(frames);
  const apart = new Float64Array(frames * VALUE_COUNT);
  const variances = new Float64Array(frames);
  const five = new Float64Array(VALUE_COUNT);
  for (let f = 0; f < frames; f++) {
    for (let n = 0; n < VALUE_COUNT; n++) five[n] = raw.counts[f * VALUE_COUNT + n]!;
    const sorted = five.slice().sort();
    middle[f] = sorted[2]!;
    // Without the first reading: it may hold some of the channel read before.
    variances[f] = (sdOf(five.subarray(1)) ** 2 * (VALUE_COUNT - 1)) / (VALUE_COUNT - 2);
    for (let n = 0; n < VALUE_COUNT; n++) apart[f * VALUE_COUNT + n] = five[n]! - middle[f]!;
  }
  return {
    timesS: raw.timesS,
    middle,
    apart,
    ownSd: frames > 0 ? Math.sqrt(medianOf(variances) / MEDIAN_VARIANCE) : 0,
  };
}
