/** What a user is led through in a capture. */

export type CaptureStep = 'rest' | 'open' | 'fist';

/** A pose between the ends, for a calibration curve of more than two points. */
export interface CapturePose {
  name: string;
  say: string;
  /** What it counts as, more than 0 and less than 1. */
  closure: number;
}

export interface PlannedStep {
  step: CaptureStep | 'pose';
  say: string;
  /** Held for so long after the hand had a moment to move there, s. */
  lengthS: number;
  /** Index of the pose, for a `pose`. */
  pose?: number;
}

/** The hand gets so long to move to a pose, s. */
export const MOVE_S = 0.7;

/** The same poses twice, so that repeats can be compared. */
export const CAPTURE_STEPS: readonly (PlannedStep & { step: CaptureStep })[] = [
  { step: 'rest', say: 'Lay the open hand down and keep it still.', lengthS: 2 },
  { step: 'open', say: 'Open the hand wide.', lengthS: 2.5 },
  { step: 'fist', say: 'Make a fist.', lengthS: 2.5 },
  { step: 'open', say: 'Open the hand wide once more.', lengthS: 2.5 },
  { step: 'fist', say: 'Make a fist once more.', lengthS: 2.5 },
];

/** One more round, where the board's ends did not come out as they were seen. */
export const ONCE_MORE: readonly PlannedStep[] = [
  { step: 'open', say: 'A wrong reading got in: open the hand wide again.', lengthS: 2.5 },
  { step: 'fist', say: 'And make a fist again.', lengthS: 2.5 },
];

/** Three usual poses between the ends. A person's half is about a half: the curve is as good as the poses are held. */
export const USUAL_POSES: readonly CapturePose[] = [
  { name: 'a quarter closed', say: 'Close the hand a quarter of the way and hold it.', closure: 0.25 },
  { name: 'half closed', say: 'Close it half the way and hold it.', closure: 0.5 },
  { name: 'three quarters closed', say: 'Close it three quarters of the way and hold it.', closure: 0.75 },
];

/** The steps in order. Poses are gone to from the open hand, so that play is always on the same side. */
export function stepsWith(poses: readonly CapturePose[]): PlannedStep[] {
  const rising = poses.map((pose, index) => ({ ...pose, index })).sort((a, b) => a.closure - b.closure);
  const between = rising.map(
    ({ say, index }): PlannedStep => ({ step: 'pose', say, lengthS: 2, pose: index }),
  );
  return [...CAPTURE_STEPS.slice(0, 2), ...between, ...CAPTURE_STEPS.slice(2)];
}
