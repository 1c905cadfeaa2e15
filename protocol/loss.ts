/** Host only. Counts frames that never came, came twice or came late. */
import { nearestStep, succession } from './sequence.ts';

/** Device time running back by more than this is a new start, not an overtaken frame, s. Assumed. */
const RESTART_S = 1;

export interface LossCounters {
  /** Frames that never came (a late one is taken off again). */
  lost: number;
  /** Frames that came again: same number, no time passed. */
  duplicates: number;
  /** Frames that came after a later one. */
  reordered: number;
  /** Times that the device's clock went back: it started anew. About half of all new starts show this way. */
  restarts: number;
}

export interface LossCounter {
  /**
   * @param sequence from the frame, 0-255
   * @param deviceS unwrapped device time of the frame, s
   * @returns steps since the latest frame: 1 = the next one (also for a first frame and after a new start),
   *   n > 1 = n - 1 lost before it, 0 = a duplicate, negative = late
   */
  arrive(sequence: number, deviceS: number): number;
  /** The counts so far; the same object every time. */
  counters: LossCounters;
  /** The next frame is a first one (port opened again, device seen to start); counts stay. */
  restart(): void;
}

/**
 * The sequence wraps after 256 frames, 2.56 s at 100 Hz; longer gaps are told by the device time.
 * @param framePeriodS time between two steps of the sequence, s; > 0. A gap of n frames is counted exactly if n
 *   times the relative error of the period, plus the frames sent outside the raster, stays below 128.
 */
export function createLossCounter(framePeriodS: number): LossCounter {
  if (!(framePeriodS > 0)) {
    throw new Error(
      `protocol/frame-period: got ${framePeriodS} s, expected more than 0. Pass 1 / frame rate.`,
    );
  }
  const counters: LossCounters = { lost: 0, duplicates: 0, reordered: 0, restarts: 0 };
  let started = false;
  let lastSequence = 0;
  let lastS = 0;

  function arrive(sequence: number, deviceS: number): number {
    const elapsedS = deviceS - lastS;
    let step = 1;
    if (started && elapsedS < -RESTART_S) counters.restarts++;
    else if (started) step = nearestStep(lastSequence, sequence, elapsedS / framePeriodS);
    const kind = succession(step);
    if (kind === 'duplicate') counters.duplicates++;
    else if (kind === 'reordered') {
      counters.reordered++;
      if (counters.lost > 0) counters.lost--;
    } else {
      counters.lost += step - 1;
      started = true;
      lastSequence = sequence;
      lastS = deviceS;
    }
    return step;
  }

  function restart(): void {
    started = false;
  }

  return { arrive, counters, restart };
}
