/**
 * The board's clock on the host's. A frame arrives some time after it was sent, never before, so the least delay of
 * each stretch of time lies near a straight line: its slope is how much faster the host's clock runs.
 */

/** Length of the stretches whose least delay counts, s. Longer than bursts of a serial adapter (16 ms) by far. */
const STRETCH_S = 2;
/** Stretches that the line is laid through: two minutes. */
const STRETCHES = 60;
/** The slope is told from so many stretches on. */
const LEAST_STRETCHES = 15;
/** Crystals of boards and PCs differ by less than this. Assumed, from memory of their datasheets. */
const MOST_DRIFT = 500e-6;

export interface TimeMap {
  /** @returns the moment on the host's clock at which a frame of this device time was sent at the earliest, s */
  arrive(deviceS: number, arrivalS: number): number;
  /** Host time over device time less 1, parts in a million; undefined until it is known well enough. */
  driftPpm(): number | undefined;
  /** The device started anew. */
  reset(): void;
}

export function createTimeMap(): TimeMap {
  let points: { deviceS: number; delayS: number }[] = [];
  let stretchEndS = Number.NEGATIVE_INFINITY;
  let line = { originS: 0, delayS: 0, slope: 0 };

  function lay(): void {
    const last = points.at(-1)!;
    line = { originS: last.deviceS, delayS: last.delayS, slope: 0 };
    const whole = points.slice(0, -1);
    if (whole.length >= LEAST_STRETCHES) {
      // The median of all pairwise slopes (Theil 1950, Sen 1968) does not mind a stretch that was late as a whole.
      const slopes: number[] = [];
      for (let i = 0; i < whole.length; i++) {
        for (let j = i + 1; j < whole.length; j++) {
          const [a, b] = [whole[i]!, whole[j]!];
          slopes.push((b.delayS - a.delayS) / (b.deviceS - a.deviceS));
        }
      }
      const slope = median(slopes);
      line.slope = Math.max(-MOST_DRIFT, Math.min(MOST_DRIFT, slope));
    }
    const ahead = points.map((p) => p.delayS - line.slope * (p.deviceS - line.originS));
    line.delayS = points.length > 3 ? median(ahead) : Math.min(...ahead);
  }

  return {
    arrive(deviceS, arrivalS) {
      const delayS = arrivalS - deviceS;
      const last = points.at(-1);
      if (deviceS >= stretchEndS || !last) {
        points.push({ deviceS, delayS });
        if (points.length > STRETCHES) points.shift();
        stretchEndS = deviceS + STRETCH_S;
        lay();
      } else if (delayS < last.delayS) {
        last.deviceS = deviceS;
        last.delayS = delayS;
        if (points.length <= 3) lay();
      }
      const sentS = deviceS + line.delayS + line.slope * (deviceS - line.originS);
      return Math.min(sentS, arrivalS);
    },
    driftPpm: () => (points.length > LEAST_STRETCHES ? 1e6 * line.slope : undefined),
    reset() {
      points = [];
      stretchEndS = Number.NEGATIVE_INFINITY;
    },
  };
}

function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
