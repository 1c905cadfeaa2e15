import type { CommandOutcome } from '../../protocol/command-sender.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { type CaptureResult, type CaptureState, createCapture } from './capture.ts';
import type { CapturePose, PlannedStep } from './capture-steps.ts';

export type { CaptureResult } from './capture.ts';
export { CAPTURE_STEPS, type CaptureStep } from './capture-steps.ts';

/** What a capture needs of the world. */
export interface CaptureHost<Step extends PlannedStep['step'] = PlannedStep['step']> {
  command(code: number, subject: number, index: number, value: number): Promise<CommandOutcome>;
  onFrame(listener: (frame: LiveFrame) => void): () => void;
  /** @returns false when the user ended it */
  wait(seconds: number): Promise<boolean>;
  /** Told before each step. */
  onStep(step: Step, say: string, number: number): void;
  /** Told at each frame, where it is wanted. */
  onChange?(state: CaptureState): void;
}

/** Looked round so often, s; and frames may stay away for so many looks. */
const LOOK_S = 0.1;
const MOST_LOOKS = 40;

/**
 * Runs a capture with a host's frames and its user's wish to stop.
 * @param poses between the ends; none if left out
 * @throws TautlineError `calibrate/...` when the board does not do what it is told
 */
export async function guidedCapture<Step extends PlannedStep['step']>(
  rig: Rig,
  host: CaptureHost<Step>,
  poses: readonly CapturePose[] = [],
): Promise<CaptureResult> {
  let told = -1;
  let looks = 0;
  let isOver = false;
  const capture = createCapture(
    rig,
    host,
    (state) => {
      if (state.step && state.phase === 'moving' && state.number > told) {
        told = state.number;
        host.onStep(state.step.step as Step, state.step.say, state.number);
      }
      host.onChange?.(state);
    },
    poses,
  );
  const leave = host.onFrame((frame) => {
    if (frame.kind === 'hand') looks = 0;
    capture.take(frame);
  });
  const done = capture.run().finally(() => {
    isOver = true;
  });
  // The error is the caller's, from `done` below; here it only ends the loop.
  done.catch(() => {});
  while (!isOver) {
    if (!(await host.wait(LOOK_S))) capture.stop('Stopped.');
    else if (++looks > MOST_LOOKS) capture.stop('Stopped: no hand frames came for four seconds.');
  }
  leave();
  return done;
}
