import { medianOf } from './statistics.ts';

/** One fast movement of one finger: out of its rest and back. */
export interface Flick {
  /** Rows at which it leaves and comes back to half of its height. */
  from: number;
  to: number;
  /** Row of the farthest point. */
  top: number;
}

/**
 * Flicks of a finger: stretches beyond half of its range.
 * @param scaled travel of the passage, 0 at the finger's low end, 1 at its high one; NaN = not known
 * @param shortest rows that make one, so that a spike does not
 */
export function flicksOf(scaled: Float64Array, shortest: number): Flick[] {
  const flicks: Flick[] = [];
  let from = -1;
  let top = -1;
  for (let i = 0; i < scaled.length; i++) {
    const s = scaled[i]!;
    if (Number.isNaN(s)) continue;
    if (s > 0.5) {
      if (from < 0) {
        from = i;
        top = i;
      }
      if (s > scaled[top]!) top = i;
    } else if (from >= 0) {
      if (i - from >= shortest) flicks.push({ from, to: i, top });
      from = -1;
    }
  }
  return flicks;
}

/** Level before and after each flick, in the unit of the row; undefined where too little of a rest is there. */
export interface RestLevels {
  before: number;
  after: number;
}

/**
 * Level of the finger in the rests round a flick.
 * @param clear rows next to the flick that are left out: the way out and back
 * @param window rows of rest that are looked at
 */
export function restLevelsOf(
  travel: Float64Array,
  flick: Flick,
  clear: number,
  window: number,
): RestLevels | undefined {
  const end = flick.from - clear;
  const start = flick.to + clear;
  if (end - window < 0 || start + window > travel.length) return undefined;
  const before = known(travel.slice(end - window, end));
  const after = known(travel.slice(start, start + window));
  if (before.length < window / 2 || after.length < window / 2) return undefined;
  return { before: medianOf(before), after: medianOf(after) };
}

function known(values: Float64Array): Float64Array {
  return values.filter((v) => !Number.isNaN(v));
}

/** Time from 20 to 80 % out and from 80 to 20 % back, s. */
export interface FlickTimes {
  outS: number;
  backS: number;
}

/** @param scaled as in flicksOf, scaled to this flick's own height by the caller where heights differ */
export function flickTimesOf(
  scaled: Float64Array,
  timesS: Float64Array,
  flick: Flick,
): FlickTimes | undefined {
  const height = scaled[flick.top]!;
  const out = [
    crossing(scaled, timesS, flick.top, -1, 0.8 * height),
    crossing(scaled, timesS, flick.top, -1, 0.2 * height),
  ];
  const back = [
    crossing(scaled, timesS, flick.top, 1, 0.8 * height),
    crossing(scaled, timesS, flick.top, 1, 0.2 * height),
  ];
  if ([...out, ...back].some((t) => Number.isNaN(t))) return undefined;
  return { outS: out[0]! - out[1]!, backS: back[1]! - back[0]! };
}

/** Time at which the row falls below a level, going from a row one way. */
function crossing(row: Float64Array, timesS: Float64Array, from: number, way: 1 | -1, level: number): number {
  for (let i = from; i + way >= 0 && i + way < row.length; i += way) {
    const a = row[i]!;
    const b = row[i + way]!;
    if (a >= level && b < level)
      return timesS[i]! + ((a - level) / (a - b)) * (timesS[i + way]! - timesS[i]!);
  }
  return NaN;
}
