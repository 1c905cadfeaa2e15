import { lineOf, medianOf } from '../diagnose/features/statistics.ts';
import { turnsOf } from './turns.ts';

/** What a channel loses each time that its finger turns round. */
export interface LostMotion {
  /** Whole width, mm: twice the play's half-width, guides' friction included. */
  widthMm: number;
  /** Standard deviation of that, mm, from the spread between the turns. */
  sdMm: number;
  turns: number;
}

/** Powers of time that a movement round a turn is made of. */
const POWERS = 5;
/** Fewest samples of a turn, and fewest turns. Assumed. */
const LEAST_SAMPLES = 12;
const LEAST_TURNS = 4;
/** Values this near the farthest one stand still, standard deviations, and values left out beside them. Assumed. */
const NEAR_SIGMAS = 6;
const ROOM = 2;
/** A turn whose bend is not about that of an even swing was a pause or a stop. Assumed. */
const LEAST_BEND = 0.5;
const MOST_BEND = 2;
/** Top speed over mean speed from which a movement is no even swing, and least share of its turns that bend evenly. */
const MOST_PEAK = 1.72;
const LEAST_SHARE = 0.6;

/**
 * The width that is lost at each turn of a movement to and fro. Before a turn the spool follows the finger from one
 * side of the play, behind it from the other, and stands still in between. A finger's own movement has no jump: it is
 * a polynomial through the turn, and the width is the jump that is left between both sides. That holds for an even
 * swing, as people make it in a rhythm; one that slows down at its turns or pauses there looks like play. Such a one is
 * refused by its top speed: π/2 of the mean for a sine, 1.875 for single movements to and fro (minimum jerk).
 * @param timesS rising
 * @param stringMm string that is out, mm
 * @param noiseMm standard deviation of one of the values
 * @returns `few` where there are too few turns, `uneven` where the finger did not swing
 */
export function lostMotionOf(
  timesS: Float64Array,
  stringMm: Float64Array,
  noiseMm: number,
): LostMotion | 'few' | 'uneven' {
  const widths: number[] = [];
  const turns = turnsOf(timesS, stringMm, noiseMm);
  for (const turn of turns) {
    const width = jumpAt(timesS, stringMm, turn, noiseMm);
    if (width !== undefined) widths.push(width);
  }
  if (widths.length < LEAST_TURNS) return 'few';
  const middle = medianOf(widths);
  const peak = medianOf(turns.map((turn) => peakOf(timesS, stringMm, turn, middle)));
  if (!(peak < MOST_PEAK) || widths.length < LEAST_SHARE * turns.length) return 'uneven';
  const off = medianOf(widths.map((width) => Math.abs(width - middle)));
  // 1.4826: of a normal row; a median spreads 1.2533 times as far as a mean.
  const sdMm = (1.2533 * 1.4826 * off) / Math.sqrt(widths.length);
  return { widthMm: Math.max(0, middle), sdMm, turns: widths.length };
}

/** Top speed over mean speed on the way to a turn, with the lost way put back. */
function peakOf(timesS: Float64Array, mm: Float64Array, turn: Turn, widthMm: number): number {
  const wayMm = turn.side * (mm[turn.at]! - mm[turn.before]!);
  const middleMm = (mm[turn.at]! + mm[turn.before]!) / 2;
  const t: number[] = [];
  const y: number[] = [];
  for (let i = turn.before; i <= turn.at; i++) {
    if (Math.abs(mm[i]! - middleMm) > 0.15 * wayMm) continue;
    t.push(timesS[i]!);
    y.push(turn.side * mm[i]!);
  }
  return (lineOf(t, y).slope * turn.strokeS) / (wayMm + widthMm);
}

/** Values round one turn. */
export interface Turn {
  /** First and one behind the last value of both sides together. */
  from: number;
  to: number;
  /** Value farthest out, its index; +1 at a closed turn, -1 at an open one. */
  at: number;
  side: 1 | -1;
  /** Index of the turn before, and time from one turn to the next, s. */
  before: number;
  strokeS: number;
  /** Bend of an even swing through this turn and its neighbours, mm/s²: half the way, by (π / time)². */
  swingMmPerS2: number;
}

/** Least squares of polynomial and jump over both sides; what stands still in between is left out. */
function jumpAt(timesS: Float64Array, mm: Float64Array, turn: Turn, noiseMm: number): number | undefined {
  const { from, to, side } = turn;
  const [stillFrom, stillTo] = standstill(mm, turn, noiseMm);
  const middleS = timesS[turn.at]!;
  const halfS = Math.max(middleS - timesS[from]!, timesS[to - 1]! - middleS);
  const rows: { s: number; sign: number; y: number }[] = [];
  let before = 0;
  for (let i = from; i < to; i++) {
    if (i > stillFrom && i < stillTo) continue;
    if (i <= stillFrom) before++;
    // Behind a closed turn the spool is behind on the closed side.
    rows.push({ s: (timesS[i]! - middleS) / halfS, sign: i <= stillFrom ? -1 : 1, y: side * mm[i]! });
  }
  if (before < LEAST_SAMPLES || rows.length - before < LEAST_SAMPLES) return undefined;
  const solved = leastSquares(
    rows.map(({ s, sign }) => [...Array.from({ length: POWERS }, (_, n) => s ** n), sign]),
    rows.map(({ y }) => y),
  );
  if (!solved) return undefined;
  const bend = (-2 * solved[2]!) / halfS ** 2 / turn.swingMmPerS2;
  return bend > LEAST_BEND && bend < MOST_BEND ? 2 * solved[POWERS]! : undefined;
}

/**
 * Last value before the spool stands still and the first after, with some room: at the turn it comes to a stand softly
 * and goes on with a corner.
 */
function standstill(mm: Float64Array, { from, to, at, side }: Turn, noiseMm: number): [number, number] {
  const isNear = (i: number) => side * (mm[at]! - mm[i]!) < NEAR_SIGMAS * noiseMm;
  let first = at;
  let last = at;
  for (let i = at; i > from && (isNear(i) || isNear(i - 1)); i--) first = i;
  for (let i = at; i < to - 1 && (isNear(i) || isNear(i + 1)); i++) last = i;
  return [Math.max(from, first - ROOM), Math.min(to - 1, last + ROOM)];
}

/** Normal equations by Gauss's elimination with pivots; undefined where they have no one solution. */
function leastSquares(rows: readonly number[][], y: readonly number[]): number[] | undefined {
  const size = rows[0]!.length;
  const matrix = Array.from({ length: size }, () => new Float64Array(size + 1));
  rows.forEach((row, r) => {
    for (let a = 0; a < size; a++) {
      for (let b = 0; b < size; b++) matrix[a]![b]! += row[a]! * row[b]!;
      matrix[a]![size]! += row[a]! * y[r]!;
    }
  });
  for (let c = 0; c < size; c++) {
    let best = c;
    for (let r = c + 1; r < size; r++) {
      if (Math.abs(matrix[r]![c]!) > Math.abs(matrix[best]![c]!)) best = r;
    }
    [matrix[c], matrix[best]] = [matrix[best]!, matrix[c]!];
    const top = matrix[c]!;
    if (!(Math.abs(top[c]!) > 1e-10 * rows.length)) return undefined;
    for (let r = 0; r < size; r++) {
      if (r === c) continue;
      const factor = matrix[r]![c]! / top[c]!;
      for (let k = c; k <= size; k++) matrix[r]![k]! -= factor * top[k]!;
    }
  }
  return matrix.map((row, i) => row[size]! / row[i]!);
}
