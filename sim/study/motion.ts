import { minimumJerk } from '../hand/minimum-jerk.ts';

/** What a stretch of the motion is scored for. */
export type Mark = 'rest' | 'open' | 'closed' | 'spike' | 'slow' | 'grasp' | 'partial' | 'flick' | 'none';

/** One stretch: a hold at `to`, a minimum-jerk move to `to`, or a sweep to `to` at constant speed. */
export interface Segment {
  kind: 'hold' | 'move' | 'sweep';
  to: number;
  durationS: number;
  mark: Mark;
}

/** A script of movement: closures 0-1 over time, starting at `start`. */
export interface Motion {
  start: number;
  segments: Segment[];
}

/** Closure at a time; before the start and after the end the motion holds. */
export function closureAt(motion: Motion, timeS: number): number {
  let from = motion.start;
  let left = timeS;
  for (const segment of motion.segments) {
    if (left < segment.durationS) return within(segment, from, left);
    left -= segment.durationS;
    from = segment.to;
  }
  return from;
}

function within(segment: Segment, from: number, elapsedS: number): number {
  if (segment.kind === 'hold' || elapsedS <= 0) return segment.kind === 'hold' ? segment.to : from;
  const tau = elapsedS / segment.durationS;
  return from + (segment.to - from) * (segment.kind === 'move' ? minimumJerk(tau) : tau);
}

/**
 * Fills an array with the closure at evenly spaced times (k + 1)·stepS.
 * Same values as `closureAt`, in one walk through the script.
 */
export function fillClosure(motion: Motion, stepS: number, out: Float64Array): void {
  let index = 0;
  let from = motion.start;
  let startS = 0;
  for (const segment of motion.segments) {
    const endS = startS + segment.durationS;
    while (index < out.length && (index + 1) * stepS < endS) {
      out[index] = within(segment, from, (index + 1) * stepS - startS);
      index++;
    }
    from = segment.to;
    startS = endS;
  }
  out.fill(from, index);
}

/** Length of the script, s. */
export function motionLengthS(motion: Motion): number {
  return motion.segments.reduce((sum, segment) => sum + segment.durationS, 0);
}
