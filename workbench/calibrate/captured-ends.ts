import type { CalibrationPoint } from '../../firmware/chain/calibration-curve.ts';
import type { Ends } from '../../firmware/chain/word-scale.ts';
import type { FingerJudgement } from './judge.ts';

/** What a capture found of one finger, in mean readings 0-1: what a profile keeps. */
export interface CapturedFinger {
  name: string;
  /** Where the hand was held, single wrong readings left out. */
  ends: Ends;
  /** From open to closed, ends included. */
  points: CalibrationPoint[];
}

/**
 * Most by which an end on the board may lie beyond the place where the hand was held, share of the span. The board
 * takes the farthest that it saw, and a hand overshoots a little on its way. Assumed.
 */
const MOST_BEYOND = 0.04;

/** @param planned ends that the judgement's levels are shares of */
export function capturedFinger(finger: FingerJudgement, planned: Ends): CapturedFinger {
  const readingOf = (level: number) => planned.open + level * (planned.closed - planned.open);
  return {
    name: finger.name,
    ends: { open: readingOf(finger.open), closed: readingOf(finger.closed) },
    points: finger.points.map(({ closure, level }) => ({ closure, x: readingOf(level) })),
  };
}

/** A judgement in other ends than the planned ones: those that a user knows. */
export function judgementIn(finger: FingerJudgement, planned: Ends, ends: Ends): FingerJudgement {
  const levelIn = (level: number) =>
    (planned.open + level * (planned.closed - planned.open) - ends.open) / (ends.closed - ends.open);
  return {
    ...finger,
    open: levelIn(finger.open),
    closed: levelIn(finger.closed),
    points: finger.points.map(({ closure, level }) => ({ closure, level: levelIn(level) })),
  };
}

/** Ends that the board took where the hand was not, in words; empty when all are right. */
export function wrongEnds(captured: readonly CapturedFinger[], board: readonly Ends[]): string[] {
  return captured.flatMap(({ name, ends }, i) => {
    const span = ends.closed - ends.open;
    return (['open', 'closed'] as const).flatMap((pose) => {
      const off = Math.abs((board[i]![pose] - ends[pose]) / span);
      return off <= MOST_BEYOND
        ? []
        : `the board took the ${pose} end of ${name} ${(100 * off).toFixed(1)} % of the span off where the hand was held, at most ${100 * MOST_BEYOND} % was expected`;
    });
  });
}
