import type { Motion } from './motion.ts';

/** Frames [from, to). */
export interface Span {
  from: number;
  to: number;
}

/** A fast grasp: when it starts, when it is over (hold included) and where its middle lies. */
export interface Grasp extends Span {
  /** Frame (fractional) at which the true closure passes the middle. */
  middleFrame: number;
  middle: number;
  /** +1 closing, −1 opening. */
  direction: number;
  /** First frame after the move itself; the hold lasts from here to `to`. */
  arrival: number;
}

/** Which frames each score looks at. Frame f is sampled at (f + 1)·period. */
export interface Windows {
  rest: Span[];
  open: Span[];
  closed: Span[];
  slow: Span[];
  grasps: Grasp[];
  /** The wrong frame is `spikes[i].from`. */
  spikes: Span[];
}

/** Time that the output gets to settle before a rest is scored, s: three time constants of a 0.5 Hz filter. */
const REST_SETTLE_S = 1;
/** The same before the slow sweep is scored, s. */
const SWEEP_SETTLE_S = 0.5;
/** Ends are judged on the last part of the hold. */
const END_SETTLE_S = 0.4;
const SPIKE_AFTER_S = 0.1;
const SHORTEST_WINDOW_FRAMES = 4;

/** Finds the scoring windows of a motion. */
export function windowsOf(motion: Motion, periodS: number, frames: number): Windows {
  const windows: Windows = { rest: [], open: [], closed: [], slow: [], grasps: [], spikes: [] };
  // Smallest frame sampled at or after a time.
  const frameAt = (timeS: number) => Math.min(frames, Math.max(0, Math.ceil(timeS / periodS - 1 - 1e-9)));
  const add = (list: Span[], fromS: number, toS: number) => {
    const span = { from: frameAt(fromS), to: frameAt(toS) };
    if (span.to - span.from >= SHORTEST_WINDOW_FRAMES) list.push(span);
  };
  let startS = 0;
  let from = motion.start;
  motion.segments.forEach((segment, index) => {
    const endS = startS + segment.durationS;
    if (segment.mark === 'rest') add(windows.rest, startS + REST_SETTLE_S, endS);
    if (segment.mark === 'open') add(windows.open, startS + END_SETTLE_S, endS);
    if (segment.mark === 'closed') add(windows.closed, startS + END_SETTLE_S, endS);
    if (segment.mark === 'slow') add(windows.slow, startS + SWEEP_SETTLE_S, endS);
    if (segment.mark === 'spike') add(windows.spikes, startS + SPIKE_AFTER_S, endS);
    if (segment.mark === 'grasp') {
      const hold = motion.segments[index + 1];
      windows.grasps.push({
        from: frameAt(startS),
        to: frameAt(endS + (hold?.kind === 'hold' ? hold.durationS : 0)),
        // A minimum-jerk move is symmetric: half the way at half the time.
        middleFrame: (startS + segment.durationS / 2) / periodS - 1,
        middle: (from + segment.to) / 2,
        direction: segment.to > from ? 1 : -1,
        arrival: frameAt(endS),
      });
    }
    startS = endS;
    from = segment.to;
  });
  return windows;
}
