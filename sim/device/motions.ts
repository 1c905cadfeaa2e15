import { FINGER_NAMES, type FingerName } from '../rig/rig.ts';
import { closureAt, type Motion, motionLengthS, type Segment } from '../study/motion.ts';

/** How a hand moves: closure of a finger at a time. */
export type HandMotion = (finger: FingerName, timeS: number) => number;

const hold = (durationS: number, to: number, mark: Segment['mark'] = 'rest'): Segment => ({
  kind: 'hold',
  to,
  durationS,
  mark,
});
const move = (durationS: number, to: number, mark: Segment['mark'] = 'grasp'): Segment => ({
  kind: 'move',
  to,
  durationS,
  mark,
});
const sweep = (durationS: number, to: number): Segment => ({ kind: 'sweep', to, durationS, mark: 'slow' });

/** A script played again and again. */
function looped(motion: Motion, timeS: number): number {
  return closureAt(motion, timeS % motionLengthS(motion));
}

/** A hand that lies still. */
export const resting: HandMotion = () => 0;

/** All fingers close slowly and open slowly, with rests at both ends; 12 s, again and again. */
export const slowly: HandMotion = (_, timeS) =>
  looped({ start: 0, segments: [hold(1, 0), sweep(5, 1), hold(1, 1), sweep(5, 0)] }, timeS);

/** Each finger in turn closes and opens quickly; 1.5 s a finger. */
export const flicking: HandMotion = (finger, timeS) => {
  const turn = FINGER_NAMES.indexOf(finger) * 1.5;
  const start: Segment[] = turn > 0 ? [hold(turn, 0)] : [];
  return looped(
    {
      start: 0,
      segments: [...start, move(0.15, 1, 'flick'), hold(0.4, 1), move(0.15, 0, 'flick'), hold(6.8 - turn, 0)],
    },
    timeS,
  );
};

/** What a guided look asks for: 6 s of rest, slow closing and opening, then each finger quickly; 26 s. */
export const guided: HandMotion = (finger, timeS) => {
  if (timeS < 6) return 0;
  if (timeS < 18) return slowly(finger, timeS - 6);
  return timeS < 26 ? flicking(finger, timeS - 18) : 0;
};

/** When each part of {@link guided} is, s. */
export const GUIDED_PARTS = { rest: [1, 6], slow: [6, 18], flick: [18, 26] } as const;

/**
 * A scene of the puppet theatre (invented): the puppet wakes, looks round, speaks, takes a bow; 36 s, again and
 * again. Thumb and index are its mouth, middle and ring its arms, the little finger its tail.
 */
export const puppetScene: HandMotion = (finger, timeS) => {
  const talk: Segment[] = Array.from({ length: 10 }, (_, i) => [
    move(0.18 + 0.02 * (i % 3), 0.75),
    move(0.22, 0.1),
    hold(0.15 + 0.1 * (i % 2), 0.1),
  ]).flat();
  const scripts: Record<FingerName, Segment[]> = {
    thumb: [
      hold(8, 0.2),
      ...talk,
      hold(5, 0.1),
      ...talk,
      move(1.5, 0.9),
      hold(3, 0.9),
      move(2, 0),
      hold(60, 0),
    ],
    index: [hold(8, 0.15), ...talk, hold(5, 0.1), ...talk, move(1.5, 1), hold(3, 1), move(2, 0), hold(60, 0)],
    middle: [
      hold(3, 0),
      move(2, 0.5),
      hold(2, 0.5),
      move(0.3, 1),
      move(0.3, 0.4),
      hold(6, 0.4),
      sweep(8, 1),
      move(0.5, 0),
      hold(60, 0),
    ],
    ring: [
      hold(4, 0),
      move(2, 0.4),
      hold(5, 0.4),
      move(0.25, 0.95),
      move(0.25, 0.3),
      hold(4, 0.3),
      sweep(9, 0.9),
      move(0.5, 0),
      hold(60, 0),
    ],
    little: [
      hold(1, 0),
      ...Array.from({ length: 24 }, () => [move(0.4, 0.35), move(0.4, 0.05)]).flat(),
      hold(60, 0),
    ],
  };
  const motion = { start: 0, segments: scripts[finger] };
  return closureAt(motion, timeS % 36);
};
