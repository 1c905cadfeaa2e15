import { VALUE_COUNT } from '../../../protocol/frame.ts';
import type { Bursts } from './bursts.ts';
import { medianOf, quantileOf, sortedOf } from './statistics.ts';

/** Single wrong readings: one of a frame's five far from the other four. */
export interface Isolated {
  count: number;
  /** Share of all readings. */
  share: number;
  /** Median size of them, counts; 0 where there are none. */
  sizeCounts: number;
}

/** @param limitCounts distance from the frame's median that counts as wrong, counts */
export function isolatedOf(bursts: Bursts, limitCounts: number): Isolated {
  const sizes: number[] = [];
  for (let f = 0; f < bursts.middle.length; f++) {
    let wrong = 0;
    let size = 0;
    for (let n = 0; n < VALUE_COUNT; n++) {
      const apart = Math.abs(bursts.apart[f * VALUE_COUNT + n]!);
      if (apart > limitCounts) {
        wrong++;
        size = apart;
      }
    }
    if (wrong === 1) sizes.push(size);
  }
  return {
    count: sizes.length,
    share: bursts.apart.length > 0 ? sizes.length / bursts.apart.length : 0,
    sizeCounts: sizes.length > 0 ? medianOf(sizes) : 0,
  };
}

/** Frames on either side that say what a frame should read. */
const NEIGHBOURS = 4;
/** The same where a wiper may lift for some tenths of a second. */
const MANY_NEIGHBOURS = 14;

/**
 * What each frame should read: median of the frames round it.
 * @param middle of bursts
 */
export function smoothOf(middle: Float64Array, neighbours = NEIGHBOURS): Float64Array {
  return middle.map((_, f) =>
    quantileOf(
      middle.slice(Math.max(0, f - neighbours), Math.min(middle.length, f + neighbours + 1)).sort(),
      0.5,
    ),
  );
}

/** Places of the travel with most of the bad frames. */
export interface BadPlace {
  /** Share of all frames that are bad. */
  share: number;
  /** Bad frames. */
  count: number;
  /** Worst stretch of the travel: its middle, share of the travel seen. */
  at: number;
  /** Share of the frames in that stretch that are bad. */
  shareThere: number;
  /** Share of all bad frames that lie in it. */
  held: number;
  /** Share of all frames, good and bad, that lie in it. */
  visited: number;
  /** Median departure of the bad frames, counts. */
  sizeCounts: number;
}

/** What movement adds within the neighbourhood, share of the span. Assumed. */
const MOVEMENT = 0.03;

/** Bins of the travel, and bins that make a stretch. */
const BINS = 20;
const STRETCH = 3;

/**
 * Where in the travel the readings are bad: one of a frame's readings far off its median, or the whole frame far off its
 * neighbours.
 * @param bursts of a slow movement
 * @param limitCounts distance that counts as bad, counts; more than movement and noise make up
 */
export function badPlaceOf(bursts: Bursts, limitCounts: number): BadPlace | undefined {
  const frames = bursts.middle.length;
  if (frames < 50) return undefined;
  const smooth = smoothOf(bursts.middle, MANY_NEIGHBOURS);
  const sorted = sortedOf(smooth);
  const low = quantileOf(sorted, 0.02);
  const span = quantileOf(sorted, 0.98) - low;
  if (!(span > 0)) return undefined;
  const all = new Float64Array(BINS);
  const bad = new Float64Array(BINS);
  const sizes: number[] = [];
  for (let f = 0; f < frames; f++) {
    const place = (smooth[f]! - low) / span;
    const bin = Math.max(0, Math.min(BINS - 1, Math.floor(place * BINS)));
    const size = badness(bursts, smooth, f, limitCounts + MOVEMENT * span);
    all[bin]!++;
    if (size > 0) {
      bad[bin]!++;
      sizes.push(size);
    }
  }
  let best = 0;
  let bestBad = -1;
  for (let from = 0; from + STRETCH <= BINS; from++) {
    const there = sumOf(bad, from);
    if (there > bestBad) {
      bestBad = there;
      best = from;
    }
  }
  return {
    share: sizes.length / frames,
    count: sizes.length,
    at: (best + STRETCH / 2) / BINS,
    shareThere: bestBad / Math.max(1, sumOf(all, best)),
    held: sizes.length > 0 ? bestBad / sizes.length : 0,
    visited: sumOf(all, best) / frames,
    sizeCounts: sizes.length > 0 ? medianOf(sizes) : 0,
  };
}

function sumOf(bins: Float64Array, from: number): number {
  let sum = 0;
  for (let i = from; i < from + STRETCH; i++) sum += bins[i]!;
  return sum;
}

/** How far a bad frame is off: as a whole, or the worst of its readings; 0 for a good one. */
function badness(bursts: Bursts, smooth: Float64Array, f: number, limit: number): number {
  let size = Math.abs(bursts.middle[f]! - smooth[f]!);
  for (let n = 0; n < VALUE_COUNT; n++) size = Math.max(size, Math.abs(bursts.apart[f * VALUE_COUNT + n]!));
  return size > limit ? size : 0;
}
