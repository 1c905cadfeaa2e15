import { play } from '../../../sim/string/play.ts';

/** How a finger follows the movement of its neighbours. */
export interface Following {
  /** Half-width of the play, share of the movement: what it hangs behind both ways at any speed. */
  playHalf: number;
  /** Time that it is behind, s: a person's fingers are never quite together. */
  lagS: number;
  /** Squares that are left with this play over those left with none: near 1 = no play is as good. */
  left: number;
  /** Standard deviation of what neither explains, share of the movement. */
  restSd: number;
}

/** Rows a second that are looked at: slow movements need no more. */
const RATE_HZ = 25;
/** Largest lag and play that are looked for. Assumed. */
const MOST_LAG_S = 0.24;
const MOST_PLAY = 0.14;
/** Steps of the first search in each direction, and of the second one round its best. */
const STEPS = 12;
/** A lag of this size is expected (standard deviation), s: decides where lag and play explain alike. Assumed. */
const USUAL_LAG_S = 0.08;
/** Powers of the finger's curve: a bent potentiometer is no play. */
const POWERS = 4;

/**
 * Least squares of travel = cubic(play(reference(t − lag), half-width)): both numbers by search, the cubic in closed
 * form.
 * @param scaled travel of the finger over its own range, 0-1; NaN = not known
 * @param reference 0-1, same rows
 * @param rateHz rows a second
 * @returns undefined where there are too few rows
 */
export function followingOf(
  scaled: Float64Array,
  reference: Float64Array,
  rateHz: number,
): Following | undefined {
  const every = Math.max(1, Math.round(rateHz / RATE_HZ));
  const rows = Math.floor(scaled.length / every);
  if (rows < 40) return undefined;
  const y = Float64Array.from({ length: rows }, (_, i) => scaled[i * every]!);
  const played = new Float64Array(rows);
  // Where in the play the finger began is not known: half a closing settles it.
  let from = 0;
  while (from < rows / 2 && !(reference[from * every]! > 0.5)) from++;
  let best = { lagS: 0, playHalf: 0, cost: Infinity, sum: 0, used: 1 };
  let without = Infinity;
  const look = (lagS: number, playHalf: number) => {
    if (playHalf < 0) return;
    let last = reference[0]!;
    for (let i = 0; i < rows; i++) {
      const r = valueAt(reference, i * every - lagS * rateHz);
      if (!Number.isNaN(r)) last = play(last, r, playHalf);
      played[i] = last;
    }
    const { sum, used } = restOf(played, y, from);
    const cost = (sum / used) * (1 + (lagS / USUAL_LAG_S) ** 2 / used);
    if (playHalf === 0) without = Math.min(without, cost);
    if (cost < best.cost) best = { lagS, playHalf, cost, sum, used };
  };
  for (let a = -STEPS; a <= STEPS; a++) {
    for (let b = 0; b <= STEPS; b++) look((a / STEPS) * MOST_LAG_S, (b / STEPS) * MOST_PLAY);
  }
  const { lagS, playHalf } = best;
  for (let a = -4; a <= 4; a++) {
    for (let b = -4; b <= 4; b++) {
      look(lagS + ((a / 4) * MOST_LAG_S) / STEPS, playHalf + ((b / 4) * MOST_PLAY) / STEPS);
    }
  }
  return {
    playHalf: best.playHalf,
    lagS: best.lagS,
    left: best.cost / without,
    restSd: Math.sqrt(best.sum / best.used),
  };
}

/** Value between two rows; the ends are prolonged. */
function valueAt(row: Float64Array, at: number): number {
  if (at <= 0) return row[0]!;
  if (at >= row.length - 1) return row[row.length - 1]!;
  const below = Math.floor(at);
  return row[below]! + (at - below) * (row[below + 1]! - row[below]!);
}

const matrix = Array.from({ length: POWERS }, () => new Float64Array(POWERS + 1));

/** Sum of squares of y about its best cubic in x from a row on, and the rows that count. */
function restOf(x: Float64Array, y: Float64Array, from: number): { sum: number; used: number } {
  for (const row of matrix) row.fill(0);
  let yy = 0;
  let used = 0;
  // Sums of powers make the whole matrix.
  const powers = new Float64Array(2 * POWERS - 1);
  const mixed = new Float64Array(POWERS);
  for (let i = from; i < x.length; i++) {
    const value = y[i]!;
    if (Number.isNaN(value)) continue;
    used++;
    yy += value * value;
    let power = 1;
    for (let n = 0; n < powers.length; n++) {
      powers[n]! += power;
      if (n < POWERS) mixed[n]! += power * value;
      power *= x[i]!;
    }
  }
  for (let a = 0; a < POWERS; a++) {
    for (let b = 0; b < POWERS; b++) matrix[a]![b] = powers[a + b]!;
    matrix[a]![POWERS] = mixed[a]!;
  }
  const solved = solve();
  let explained = 0;
  for (let n = 0; n < POWERS; n++) explained += solved[n]! * mixed[n]!;
  return { sum: Math.max(yy - explained, 1e-9), used: Math.max(used, 1) };
}

/** Gauss's elimination of the symmetric matrix; a power that adds nothing gets the factor 0. */
function solve(): Float64Array {
  for (let column = 0; column < POWERS; column++) {
    const top = matrix[column]!;
    if (Math.abs(top[column]!) < 1e-9) continue;
    for (let r = 0; r < POWERS; r++) {
      if (r === column) continue;
      const factor = matrix[r]![column]! / top[column]!;
      for (let c = column; c <= POWERS; c++) matrix[r]![c]! -= factor * top[c]!;
    }
  }
  return Float64Array.from(matrix, (row, i) => (Math.abs(row[i]!) < 1e-9 ? 0 : row[POWERS]! / row[i]!));
}
