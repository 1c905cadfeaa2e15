import type { LiveFrame } from '../live/session-types.ts';

/** What a user sees of one finger while a capture runs. */
export interface FingerFeedback {
  name: string;
  /** Travel by the board's present ends; null where there is no valid value. */
  level: number | null;
  /** Largest less smallest level since the capture began, single wrong samples left out; travel. */
  span: number;
  isMoving: boolean;
}

/** Time over which a finger is looked at for movement, s, and the range that is movement, travel. Assumed. */
const LOOK_S = 0.3;
const MOVEMENT = 0.03;
/** Levels that are kept of it: enough for 200 frames a second. */
const MOST_LEVELS = 60;

interface Seen {
  /** Times and levels of late, each the middle one of three samples. */
  late: { timeS: number; level: number }[];
  two: number[];
  level: number | null;
  low: number;
  high: number;
}

/**
 * Follows the levels of some fingers. Memory is bounded.
 * @param travelOf what a finger's word means; null = no valid value
 */
export function createFeedback(
  names: readonly string[],
  slots: readonly number[],
  travelOf: (finger: number, word: number) => number | null,
) {
  const seen: Seen[] = names.map(() => ({ late: [], two: [], level: null, low: Infinity, high: -Infinity }));

  function takeOne(finger: Seen, timeS: number, travel: number | null): void {
    finger.level = travel;
    if (travel === null) {
      finger.two = [];
      return;
    }
    const [a, b] = finger.two;
    finger.two = b === undefined ? [...finger.two, travel] : [b, travel];
    if (a === undefined || b === undefined) return;
    // The middle one of three: a single wrong sample is neither movement nor span.
    const level = Math.max(Math.min(a, b), Math.min(Math.max(a, b), travel));
    finger.low = Math.min(finger.low, level);
    finger.high = Math.max(finger.high, level);
    finger.late.push({ timeS, level });
    while (finger.late.length > MOST_LEVELS || finger.late[0]!.timeS < timeS - LOOK_S) finger.late.shift();
  }

  return {
    take(frame: LiveFrame): void {
      if (frame.kind !== 'hand' || frame.step < 1) return;
      seen.forEach((finger, i) => {
        takeOne(finger, frame.hostS, travelOf(i, frame.values[slots[i]!]!));
      });
    },
    fingers(): FingerFeedback[] {
      return seen.map(({ late, level, low, high }, i) => {
        const levels = late.map((one) => one.level);
        return {
          name: names[i]!,
          level,
          span: high >= low ? high - low : 0,
          isMoving: levels.length > 1 && Math.max(...levels) - Math.min(...levels) > MOVEMENT,
        };
      });
    },
  };
}
