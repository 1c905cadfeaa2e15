import type { Mark, Motion, Segment } from './motion.ts';
import { motionLengthS } from './motion.ts';

/** Length of the standard motion, s. */
export const STANDARD_LENGTH_S = 20;

/** Durations of the fast grasps, s: a rapid pinch takes about 90 ms (Cole & Abbs 1986), an easy one 400 ms. */
export const GRASP_DURATIONS_S = [0.09, 0.15, 0.25, 0.4] as const;

/**
 * The motion that every setting is scored on: both ends, three rests, a rest with one wrong frame, a slow
 * sweep, fast grasps of 90-400 ms with partial grips, and repeated flicks; 20 s in all. Times and targets
 * vary a little from draw to draw, so that no setting is tuned to one script.
 * @param vary returns the next number from −1 to 1; called a fixed number of times
 */
export function standardMotion(vary: () => number): Motion {
  const segments: Segment[] = [];
  const hold = (durationS: number, mark: Mark) => {
    const to = segments.length > 0 ? segments[segments.length - 1].to : 0;
    segments.push({ kind: 'hold', to, durationS: durationS * (1 + 0.08 * vary()), mark });
  };
  const move = (target: number, durationS: number, mark: Mark) => {
    // The very ends stay exact: they are what the reach of both ends is scored on.
    const to = target === 0 || target === 1 ? target : target + 0.03 * vary();
    segments.push({ kind: 'move', to, durationS, mark });
  };
  hold(0.7, 'open');
  move(1, 0.4, 'none');
  hold(0.7, 'closed');
  move(0.5, 0.4, 'none');
  hold(2.6, 'rest');
  hold(0.7, 'spike');
  move(0.8, 0.3, 'none');
  hold(2.4, 'rest');
  const slowTo = 0.35 + 0.03 * vary();
  segments.push({ kind: 'sweep', to: slowTo, durationS: 2.6, mark: 'slow' });
  move(0.2, 0.3, 'none');
  hold(2.4, 'rest');
  for (const durationS of GRASP_DURATIONS_S) {
    move(0.9, durationS, 'grasp');
    hold(0.3, 'partial');
    move(0.1, durationS, 'grasp');
    hold(0.3, 'partial');
  }
  for (let flick = 0; flick < 4; flick++) {
    move(0.6, 0.12, 'flick');
    move(0.1, 0.12, 'flick');
  }
  move(0, 0.3, 'none');
  const motion = { start: 0, segments };
  segments.push({ kind: 'hold', to: 0, durationS: STANDARD_LENGTH_S - motionLengthS(motion), mark: 'open' });
  return motion;
}
