import { VALUE_COUNT } from '../../protocol/frame.ts';
import type { HandRows, RawRows } from './evidence.ts';

/** Rows that are kept of one passage of hand frames: ten minutes at 100 Hz, 1.1 MB. The oldest go first. */
export const MOST_HAND_ROWS = 60_000;
/** Frames that are kept of one channel's passage of raw frames: two minutes at 100 Hz, 0.2 MB. */
export const MOST_RAW_FRAMES = 12_000;

/** Rows that grow by doubling up to a limit and then forget their oldest half. */
interface Growing {
  rows: number;
  dropped: number;
}

export interface GrowingHand extends Growing {
  timesS: Float64Array;
  words: Uint16Array[];
}

export interface GrowingRaw extends Growing {
  timesS: Float64Array;
  counts: Uint16Array;
  paceS: number;
}

const FIRST = 512;

export function newHandRows(): GrowingHand {
  return {
    rows: 0,
    dropped: 0,
    timesS: new Float64Array(FIRST),
    words: Array.from({ length: VALUE_COUNT }, () => new Uint16Array(FIRST)),
  };
}

export function newRawRows(): GrowingRaw {
  return {
    rows: 0,
    dropped: 0,
    timesS: new Float64Array(FIRST),
    counts: new Uint16Array(VALUE_COUNT * FIRST),
    paceS: 0,
  };
}

/** Makes room for one more row. */
function makeRoom(
  g: Growing & { timesS: Float64Array },
  most: number,
  move: (from: number, size: number) => void,
): void {
  if (g.rows < g.timesS.length) return;
  if (g.timesS.length < most) move(0, Math.min(most, 2 * g.timesS.length));
  else {
    const half = g.rows >> 1;
    move(half, g.timesS.length);
    g.rows -= half;
    g.dropped += half;
  }
}

function moved<T extends Float64Array | Uint16Array>(array: T, from: number, to: number, bigger: T): T {
  bigger.set(array.subarray(from, to) as never);
  return bigger;
}

export function pushHand(g: GrowingHand, timeS: number, values: readonly number[]): void {
  makeRoom(g, MOST_HAND_ROWS, (from, size) => {
    g.timesS = moved(g.timesS, from, g.rows, new Float64Array(size));
    g.words = g.words.map((words) => moved(words, from, g.rows, new Uint16Array(size)));
  });
  g.timesS[g.rows] = timeS;
  for (let i = 0; i < VALUE_COUNT; i++) g.words[i]![g.rows] = values[i]!;
  g.rows++;
}

export function pushRaw(g: GrowingRaw, timeS: number, values: readonly number[]): void {
  makeRoom(g, MOST_RAW_FRAMES, (from, size) => {
    g.timesS = moved(g.timesS, from, g.rows, new Float64Array(size));
    g.counts = moved(g.counts, VALUE_COUNT * from, VALUE_COUNT * g.rows, new Uint16Array(VALUE_COUNT * size));
  });
  g.timesS[g.rows] = timeS;
  for (let i = 0; i < VALUE_COUNT; i++) g.counts[VALUE_COUNT * g.rows + i] = values[i]!;
  g.rows++;
}

/** The rows so far, without the spare room; views, not copies. */
export function handRowsOf(g: GrowingHand): HandRows {
  return { timesS: g.timesS.subarray(0, g.rows), words: g.words.map((words) => words.subarray(0, g.rows)) };
}

export function rawRowsOf(g: GrowingRaw): RawRows {
  return {
    timesS: g.timesS.subarray(0, g.rows),
    counts: g.counts.subarray(0, VALUE_COUNT * g.rows),
    paceS: g.paceS,
  };
}
