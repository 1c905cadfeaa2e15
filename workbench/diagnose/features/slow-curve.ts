/** Steps of the reference closure in which a slow movement is looked at. */
export const STEPS = 50;

/**
 * A finger against the closure that its neighbours show, closing and opening apart: what is slack, play, a dead end or
 * an end stop of this finger alone stands out; what all fingers do alike cannot be seen.
 */
export interface SlowCurve {
  /** Mean travel of the finger at each step of closing, NaN where there is no row. */
  closing: Float64Array;
  opening: Float64Array;
}

/** Change of the reference over which its direction is told, share of full closure. */
const DIRECTION_SHARE = 0.02;

/**
 * Direction of movement at each row: 1 closing, -1 opening, 0 before the first movement. A direction holds until the
 * reference has come back by {@link DIRECTION_SHARE}.
 */
export function directionsOf(reference: Float64Array): Int8Array {
  const out = new Int8Array(reference.length);
  let direction = 0;
  let low = reference[0]!;
  let high = reference[0]!;
  let since = 0;
  for (let i = 0; i < reference.length; i++) {
    const r = reference[i]!;
    if (r > high) {
      high = r;
      if (direction === 1) since = i;
    }
    if (r < low) {
      low = r;
      if (direction === -1) since = i;
    }
    if (direction !== 1 && r - low > DIRECTION_SHARE) {
      out.fill(0, since + 1, i);
      direction = 1;
      high = r;
      since = i;
    } else if (direction !== -1 && high - r > DIRECTION_SHARE) {
      out.fill(0, since + 1, i);
      direction = -1;
      low = r;
      since = i;
    }
    out[i] = direction;
  }
  out.fill(0, since + 1);
  return out;
}

/** @param reference 0-1, same rows as `travel` */
export function slowCurveOf(travel: Float64Array, reference: Float64Array): SlowCurve {
  const directions = directionsOf(reference);
  return {
    closing: branch(travel, reference, directions, 1),
    opening: branch(travel, reference, directions, -1),
  };
}

function branch(
  travel: Float64Array,
  reference: Float64Array,
  directions: Int8Array,
  wanted: number,
): Float64Array {
  const sums = new Float64Array(STEPS);
  const rows = new Float64Array(STEPS);
  for (let i = 0; i < travel.length; i++) {
    if (directions[i] !== wanted || Number.isNaN(travel[i]!)) continue;
    const step = Math.floor(reference[i]! * STEPS);
    if (step < 0 || step >= STEPS) continue;
    sums[step]! += travel[i]!;
    rows[step]!++;
  }
  return sums.map((sum, i) => (rows[i]! > 0 ? sum / rows[i]! : NaN));
}

/** Part of the movement at each end in which the finger's reading stands still. */
export interface FlatEnds {
  /** Share of the reference closure from the open end on. */
  open: number;
  /** From the closed end on. */
  closed: number;
}

/**
 * @param tolerance travel within which a reading stands still
 */
export function flatEndsOf(branch: Float64Array, tolerance: number): FlatEnds {
  const known: [at: number, travel: number][] = [];
  branch.forEach((travel, i) => {
    if (!Number.isNaN(travel)) known.push([(i + 0.5) / STEPS, travel]);
  });
  if (known.length < 5) return { open: 0, closed: 0 };
  const first = known[0]!;
  const last = known[known.length - 1]!;
  let open = 0;
  for (const [at, travel] of known) {
    if (Math.abs(travel - first[1]) > tolerance) break;
    open = at;
  }
  let closed = 0;
  for (let i = known.length - 1; i >= 0; i--) {
    if (Math.abs(known[i]![1] - last[1]) > tolerance) break;
    closed = 1 - known[i]![0];
  }
  return { open, closed };
}
