import { INVALID_VALUE, TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD, VALUE_COUNT } from '../../protocol/frame.ts';
import type { HandRows, PassageName, RawRows } from './evidence.ts';
import { runningMedian } from './features/dips.ts';
import { quantileOf, sortedOf } from './features/statistics.ts';

/** Speed of the fastest finger below which a hand rests, travel/s: ten times what drift and bands make. Assumed. */
const REST_SPEED = 0.08;
/** Speed from which a movement is fast: a closing in less than 0.6 s. Assumed. */
const FAST_SPEED = 1.7;
/** Time over which a speed is taken, s. */
const SPEED_S = 0.1;
/** Shortest stretch of each kind, s. Assumed. */
const LEAST_S: Record<PassageName, number> = { rest: 1.5, slow: 2, flick: 1 };
/** Rests shorter than this belong to the movement round them, s: pauses between flicks, turning points. Assumed. */
const PAUSE_S = 1.5;
/** Slow stretches shorter than this next to a fast one are its ramp, s. Assumed. */
const RAMP_S = 0.5;

/**
 * The longest rest, slow and fast passage of a recording that nobody led through. Rests inside a movement stay with it.
 */
export function findPassages(rows: HandRows): { [name in PassageName]?: HandRows } {
  const speeds = speedsOf(rows);
  const kinds = speeds.map((speed) => (speed < REST_SPEED ? 0 : speed < FAST_SPEED ? 1 : 2));
  const blocks = mergePauses(blocksOf(kinds), rows.timesS);
  const out: { [name in PassageName]?: HandRows } = {};
  for (const [kind, name] of [
    [0, 'rest'],
    [1, 'slow'],
    [2, 'flick'],
  ] as const) {
    const best = blocks
      .filter((block) => block.kind === kind)
      .reduce<Block | undefined>(
        (a, b) => (a && lengthS(a, rows.timesS) >= lengthS(b, rows.timesS) ? a : b),
        undefined,
      );
    if (best && lengthS(best, rows.timesS) >= LEAST_S[name]) out[name] = cut(rows, best);
  }
  return out;
}

interface Block {
  kind: number;
  from: number;
  to: number;
}

function lengthS(block: Block, timesS: Float64Array): number {
  return timesS[block.to - 1]! - timesS[block.from]!;
}

function cut(rows: HandRows, { from, to }: Block): HandRows {
  return { timesS: rows.timesS.slice(from, to), words: rows.words.map((words) => words.slice(from, to)) };
}

/** Speed of the fastest finger. */
function speedsOf(rows: HandRows): Float64Array {
  const { timesS, words } = rows;
  const n = timesS.length;
  const out = new Float64Array(n);
  const scale = TRAVEL_CLOSED_WORD - TRAVEL_OPEN_WORD;
  let back = 0;
  for (let i = 0; i < n; i++) {
    while (timesS[i]! - timesS[back]! > SPEED_S) back++;
    const elapsed = timesS[i]! - timesS[back]!;
    let most = 0;
    for (let slot = 0; slot < VALUE_COUNT; slot++) {
      const now = words[slot]![i]!;
      const before = words[slot]![back]!;
      if (now === INVALID_VALUE || before === INVALID_VALUE) continue;
      most = Math.max(most, Math.abs(now - before));
    }
    out[i] = elapsed > 0 ? most / scale / elapsed : 0;
  }
  return out;
}

function blocksOf(kinds: ArrayLike<number>): Block[] {
  const blocks: Block[] = [];
  for (let i = 0; i < kinds.length; i++) {
    const last = blocks[blocks.length - 1];
    if (last && last.kind === kinds[i]) last.to = i + 1;
    else blocks.push({ kind: kinds[i]!, from: i, to: i + 1 });
  }
  return blocks;
}

/**
 * Ramps of a fast movement are slow for a moment: they join it. Short rests between two movements of one kind join
 * them.
 */
function mergePauses(blocks: readonly Block[], timesS: Float64Array): Block[] {
  const ramps = blocks.map((block, i) => {
    const isRamp = block.kind === 1 && lengthS(block, timesS) < RAMP_S;
    const atFast = blocks[i - 1]?.kind === 2 || blocks[i + 1]?.kind === 2;
    return isRamp && atFast ? { ...block, kind: 2 } : block;
  });
  const merged: Block[] = [];
  for (const block of ramps) {
    const last = merged[merged.length - 1];
    const before = merged[merged.length - 2];
    if (last?.kind === block.kind) last.to = block.to;
    else if (
      block.kind > 0 &&
      last?.kind === 0 &&
      before?.kind === block.kind &&
      lengthS(last, timesS) < PAUSE_S
    ) {
      before.to = block.to;
      merged.pop();
    } else merged.push({ ...block });
  }
  return merged;
}

/** Window in which a raw channel is judged to rest, frames, and the range that still counts as rest, counts. Assumed. */
const STILL_FRAMES = 50;
const STILL_COUNTS = 60;
/** A channel whose readings span more than this was moved, counts. Assumed. */
const MOVED_COUNTS = 300;

/** A channel's raw frames split into its longest rest and, where it was moved, all of it. */
export function splitRaw(raw: RawRows): { rest: RawRows | undefined; slow: RawRows | undefined } {
  const frames = raw.timesS.length;
  const middle = Float64Array.from({ length: frames }, (_, f) =>
    quantileOf(Float64Array.from(raw.counts.subarray(VALUE_COUNT * f, VALUE_COUNT * (f + 1))).sort(), 0.5),
  );
  const smooth = runningMedian(middle, 5);
  const kinds = new Uint8Array(frames);
  for (let f = 0; f + STILL_FRAMES <= frames; f += STILL_FRAMES) {
    const part = smooth.subarray(f, f + STILL_FRAMES);
    const sorted = sortedOf(part);
    if (sorted[sorted.length - 1]! - sorted[0]! < STILL_COUNTS) kinds.fill(1, f, f + STILL_FRAMES);
  }
  const rests = blocksOf(kinds).filter((block) => block.kind === 1);
  const best = rests.reduce<Block | undefined>(
    (a, b) => (a && a.to - a.from >= b.to - b.from ? a : b),
    undefined,
  );
  const sorted = sortedOf(smooth);
  const moved = frames > 0 && quantileOf(sorted, 0.98) - quantileOf(sorted, 0.02) > MOVED_COUNTS;
  return {
    rest: best && {
      timesS: raw.timesS.slice(best.from, best.to),
      counts: raw.counts.slice(VALUE_COUNT * best.from, VALUE_COUNT * best.to),
      paceS: raw.paceS,
    },
    slow: moved ? raw : undefined,
  };
}
