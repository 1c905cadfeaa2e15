import { linearTicks, logTicks } from './ticks.ts';

/** Maps a quantity to SVG user units. */
export interface Scale {
  at(value: number): number;
  ticks: number[];
  /** Values below are drawn at the axis' end (only logarithmic scales have such an end). */
  floor: number | undefined;
}

/** Narrower domains count as one value, smaller positive values as zero: below all that the report can show. */
const LEAST_SPAN = 1e-9;

/** Straight scale; a domain without width is given some. Values outside are held at the ends. */
export function linearScale(domain: [number, number], range: [number, number], tickTarget: number): Scale {
  const [low, high] = widened(domain);
  const perUnit = (range[1] - range[0]) / (high - low);
  return {
    at: (value) => range[0] + (Math.min(high, Math.max(low, value)) - low) * perUnit,
    ticks: linearTicks(low, high, tickTarget),
    floor: undefined,
  };
}

/**
 * Logarithmic scale over the positive ones of `values`, at most `mostDecades` down from the largest.
 * Zero and everything below the end is drawn at the end.
 */
export function logScale(
  values: number[],
  range: [number, number],
  tickTarget: number,
  mostDecades = 4,
): Scale {
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  let dropped = false;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    if (value > high) high = value;
    if (value >= LEAST_SPAN && value < low) low = value;
    if (value < LEAST_SPAN) dropped = true;
  }
  if (high < LEAST_SPAN) {
    low = 0.1;
    high = 1;
  }
  if (low < high / 10 ** mostDecades) {
    low = high / 10 ** mostDecades;
    dropped = true;
  }
  const margin = Math.max(1.06, (high / low) ** 0.04);
  const bottom = low / margin;
  const top = high * margin;
  const perFactor = (range[1] - range[0]) / Math.log(top / bottom);
  return {
    at: (value) => range[0] + Math.log(Math.min(top, Math.max(bottom, value)) / bottom) * perFactor,
    ticks: logTicks(bottom, top, tickTarget),
    floor: dropped ? bottom : undefined,
  };
}

/** Smallest and largest finite value of all lists, always holding `including`. */
export function extent(lists: number[][], including: number[] = []): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const list of [...lists, including])
    for (const value of list) {
      if (!Number.isFinite(value)) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  return low <= high ? [low, high] : [0, 1];
}

/** A domain with `share` of its width added at both ends. */
export function padded([low, high]: [number, number], share: number): [number, number] {
  const [from, to] = widened([low, high]);
  const extra = (to - from) * share;
  return [from - extra, to + extra];
}

function widened([low, high]: [number, number]): [number, number] {
  if (high - low > LEAST_SPAN) return [low, high];
  const half = Math.max(Math.abs(low), 1) / 2;
  return [low - half, low + half];
}
