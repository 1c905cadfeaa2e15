import { type Frame, KIND_HEALTH } from '../../../protocol/frame.ts';

/** Decides from a frame whether the right program sent it. @param frame is overwritten by the next: copy to keep */
export type RightProgram = (frame: Frame) => boolean;

/** Frames that must have come before a program counts as running, the recognised one among them. */
export const ENOUGH_FRAMES = 5;

/**
 * The right program tells its version in its health frames (SPEC.md, value 4).
 * @param id 0-255
 */
export function hasProgramId(id: number): RightProgram {
  return (frame) => frame.kind === KIND_HEALTH && (frame.values[4] & 255) === id;
}

/** Watches the frames that come after a program was started. */
export interface RunningWatch {
  see(frame: Frame): void;
  isRunning(): boolean;
  frames(): number;
  /** Program versions seen in health frames, in order of appearance. */
  programIds(): number[];
}

export function createRunningWatch(isRight: RightProgram): RunningWatch {
  let frames = 0;
  let right = false;
  const ids: number[] = [];
  return {
    see(frame) {
      frames++;
      if (isRight(frame)) right = true;
      if (frame.kind === KIND_HEALTH) {
        const id = frame.values[4] & 255;
        if (!ids.includes(id)) ids.push(id);
      }
    },
    isRunning: () => right && frames >= ENOUGH_FRAMES,
    frames: () => frames,
    programIds: () => ids,
  };
}
