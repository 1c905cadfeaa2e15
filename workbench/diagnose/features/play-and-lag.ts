/** How a finger follows the movement of its neighbours. */
export interface Following {
  /** Half-width of the play, share of the movement: what it hangs behind both ways at any speed. */
  playHalf: number;
  /** Time that it is behind, s: what grows with the speed. A person's fingers are never quite together. */
  lagS: number;
}

/** A lag of this size is expected (standard deviation), s: keeps the fit steady where the speed hardly varies. Assumed. */
const USUAL_LAG_S = 0.06;
/** Residue of the fit that is expected, share of the movement. Assumed. */
const RESIDUE = 0.01;
/** Middle part of the movement that is looked at. */
const FROM = 0.12;
const TO = 0.88;

/**
 * Least squares of travel = a + b·r + c·r² + d·r³ − lag·r' − play·direction, where r is the reference, so that a bent
 * potentiometer is no play and a finger that merely moves later is none either.
 * @param scaled travel of the finger over its own range, 0-1
 * @param reference 0-1, same rows
 * @param directions 1 closing, -1 opening, 0 not known
 * @returns undefined where there is too little movement both ways
 */
export function followingOf(
  scaled: Float64Array,
  reference: Float64Array,
  directions: Int8Array,
  rateHz: number,
): Following | undefined {
  const size = 6;
  const matrix = Array.from({ length: size }, () => new Float64Array(size + 1));
  const row = new Float64Array(size);
  const used = { closing: 0, opening: 0 };
  const reach = Math.max(1, Math.round(0.05 * rateHz));
  for (let i = reach; i + reach < scaled.length; i++) {
    const r = reference[i]!;
    const y = scaled[i]!;
    const direction = directions[i]!;
    if (direction === 0 || !(r > FROM && r < TO) || Number.isNaN(y)) continue;
    const speed = ((reference[i + reach]! - reference[i - reach]!) * rateHz) / (2 * reach);
    if (Number.isNaN(speed)) continue;
    row.set([1, r, r * r, r * r * r, -speed, -direction]);
    for (let a = 0; a < size; a++) {
      for (let b = 0; b < size; b++) matrix[a]![b]! += row[a]! * row[b]!;
      matrix[a]![size]! += row[a]! * y;
    }
    if (direction > 0) used.closing++;
    else used.opening++;
  }
  if (used.closing < 30 || used.opening < 30) return undefined;
  matrix[4]![4]! += (RESIDUE / USUAL_LAG_S) ** 2;
  const solved = solve(matrix);
  return solved && { lagS: solved[4]!, playHalf: solved[5]! };
}

/** Gauss's elimination with the largest pivot; undefined where the rows do not determine the solution. */
function solve(matrix: Float64Array[]): Float64Array | undefined {
  const n = matrix.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let r = column + 1; r < n; r++) {
      if (Math.abs(matrix[r]![column]!) > Math.abs(matrix[pivot]![column]!)) pivot = r;
    }
    [matrix[column], matrix[pivot]] = [matrix[pivot]!, matrix[column]!];
    const top = matrix[column]!;
    if (Math.abs(top[column]!) < 1e-9) return undefined;
    for (let r = 0; r < n; r++) {
      if (r === column) continue;
      const factor = matrix[r]![column]! / top[column]!;
      for (let c = column; c <= n; c++) matrix[r]![c]! -= factor * top[c]!;
    }
  }
  return Float64Array.from(matrix, (row, i) => row[n]! / row[i]!);
}
