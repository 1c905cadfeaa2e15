/**
 * The board's clock on the host's. A frame arrives some time after it was sent, never before, so the least delay of
 * each stretch of time lies near a straight line: its slope is how much faster the host's clock runs.
 */
import { median } from './median.ts';

/** Length of the stretches whose least delay counts, s. Longer than bursts of a serial adapter (16 ms) by far. */
const STRETCH_S = 2;
/** Stretches that the line is laid through: five minutes, short against the warming-up of a crystal. */
const STRETCHES = 150;
/** The slope is used and told from so many stretches on. */
const LEAST_STRETCHES = 15;
/** Crystals of boards and PCs differ by less than this. Assumed. */
const MOST_DRIFT = 500e-6;
/** To how much the drift must be known to be told. */
const KNOWN_TO = 20e-6;
/** Delays of one stretch that are kept, to see how finely they lie. */
const MOST_DELAYS = 1024;
/** Share of the delays, from the least on, in which gaps count. */
const LOW_SHARE = 0.6;
/** A frame that comes so much before its time was sent by another clock, s. */
const AHEAD_S = 0.1;
/** ... once so many stretches have shown the delay. */
const LEAST_AHEAD = 3;
/** All frames so late for so long: the old line is worth nothing. */
const LATE_S = 0.25;
const LATE_FOR_S = 1.5;

export interface TimeMap {
  /** @returns the moment on the host's clock at which a frame of this device time was sent at the earliest, s */
  arrive(deviceS: number, arrivalS: number): number;
  /** Whether a frame would have arrived before it was sent: the board's clock has jumped. */
  isAhead(deviceS: number, arrivalS: number): boolean;
  /** Host time over device time less 1, parts in a million; undefined until it is known to 20. */
  driftPpm(): number | undefined;
  /** The device started anew. */
  reset(): void;
}

interface Point {
  deviceS: number;
  delayS: number;
  /** How far the least delay may lie above the true one, as its neighbours show, s. */
  coarseS: number;
}

export function createTimeMap(): TimeMap {
  let points: Point[] = [];
  let stretchEndS = Number.NEGATIVE_INFINITY;
  let line = { originS: 0, delayS: 0, slope: 0 };
  let drift: number | undefined;
  const delays = new Float64Array(MOST_DELAYS);
  let delayCount = 0;
  let lateSinceS = Number.NaN;

  /** The slope through whole stretches, and how well it is known. */
  function slopeOf(whole: Point[]): { slope: number; knownTo: number } {
    const slopes = new Float64Array((whole.length * (whole.length - 1)) / 2);
    let n = 0;
    for (let i = 0; i < whole.length; i++) {
      for (let j = i + 1; j < whole.length; j++) {
        const [a, b] = [whole[i]!, whole[j]!];
        slopes[n++] = (b.delayS - a.delayS) / (b.deviceS - a.deviceS);
      }
    }
    // The median of all pairwise slopes (Theil 1950, Sen 1968) does not mind a stretch that was late as a whole.
    const slope = Math.max(-MOST_DRIFT, Math.min(MOST_DRIFT, median(slopes)));
    const rests = Float64Array.from(whole, (p) => p.delayS - slope * p.deviceS).sort();
    const spreadS = rests[Math.floor(0.95 * rests.length)]! - rests[Math.floor(0.05 * rests.length)]!;
    const coarseS = median(Float64Array.from(whole, (p) => p.coarseS));
    const spanS = whole.at(-1)!.deviceS - whole[0]!.deviceS;
    // A straight line through points that are off by r / 2 either way is off by at most 1.5 r / span.
    return { slope, knownTo: (1.5 * Math.max(spreadS, coarseS)) / spanS };
  }

  function lay(): void {
    const last = points.at(-1)!;
    line = { originS: last.deviceS, delayS: last.delayS, slope: 0 };
    const whole = points.slice(0, -1);
    if (whole.length >= LEAST_STRETCHES) {
      const { slope, knownTo } = slopeOf(whole);
      line.slope = slope;
      drift = knownTo <= KNOWN_TO ? 1e6 * slope : undefined;
    }
    const ahead = Float64Array.from(points, (p) => p.delayS - line.slope * (p.deviceS - line.originS));
    line.delayS = points.length > 3 ? median(ahead) : ahead.reduce((a, b) => Math.min(a, b));
  }

  /** The widest gap between neighbouring delays among the lower ones: bursts make steps, which hide drift. */
  function coarseness(): number {
    const sorted = delays.slice(0, delayCount).sort();
    let widest = 0;
    for (let i = 1; i < LOW_SHARE * sorted.length; i++)
      widest = Math.max(widest, sorted[i]! - sorted[i - 1]!);
    return widest;
  }

  function expectedDelayS(deviceS: number): number {
    return line.delayS + line.slope * (deviceS - line.originS);
  }

  function reset(): void {
    points = [];
    drift = undefined;
    stretchEndS = Number.NEGATIVE_INFINITY;
    lateSinceS = Number.NaN;
  }

  return {
    arrive(deviceS, arrivalS) {
      const delayS = arrivalS - deviceS;
      if (points.length > 0 && delayS > expectedDelayS(deviceS) + LATE_S) {
        if (Number.isNaN(lateSinceS)) lateSinceS = arrivalS;
        else if (arrivalS - lateSinceS > LATE_FOR_S) reset();
      } else lateSinceS = Number.NaN;
      const last = points.at(-1);
      if (deviceS >= stretchEndS || !last) {
        if (last) last.coarseS = coarseness();
        delayCount = 0;
        points.push({ deviceS, delayS, coarseS: 0 });
        if (points.length > STRETCHES) points.shift();
        stretchEndS = deviceS + STRETCH_S;
        lay();
      } else if (delayS < last.delayS) {
        last.deviceS = deviceS;
        last.delayS = delayS;
        if (points.length <= 3) lay();
      }
      if (delayCount < MOST_DELAYS) delays[delayCount++] = delayS;
      return Math.min(deviceS + expectedDelayS(deviceS), arrivalS);
    },
    isAhead: (deviceS, arrivalS) =>
      points.length >= LEAST_AHEAD && arrivalS - deviceS < expectedDelayS(deviceS) - AHEAD_S,
    driftPpm: () => drift,
    reset,
  };
}
