import type { Conversation } from './conversation.ts';
import { notRunningError } from './late-errors.ts';
import { nudge } from './nudge.ts';
import { padPacket } from './packet-lengths.ts';
import { createRunningWatch, type RightProgram } from './running.ts';

const LOOK_EVERY_MS = 10;

/**
 * Starts the stored program and waits for its frames.
 * @param rightWords what isRight looks for, for the message
 * @returns frames seen when the program counted as running
 * @throws TautlineError `load/not-running`, `load/wrong-program`, `load/memory`, ...
 */
export async function startProgram(
  talk: Conversation,
  isRight: RightProgram,
  rightWords: string,
): Promise<number> {
  const { board, tools, limits, ending, evidence } = talk;
  talk.stage('starting the program');
  const watch = createRunningWatch(isRight);
  board.clearText();
  board.onFrame((frame) => watch.see(frame));
  // The answer may be lost in the start.
  const start = (): void => void tools.evaluate(padPacket('load()'), limits.answerMs).catch(() => {});
  start();
  let again = true;
  const startMs = performance.now();
  while (!watch.isRunning()) {
    await ending.until(new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS)));
    if (again && watch.frames() === 0 && performance.now() - startMs > limits.nudgeMs) {
      // The command itself may be lost.
      again = false;
      await ending.until(nudge(board));
      start();
    }
    if (performance.now() - startMs > limits.runMs) throw notRunningError(evidence(), watch, rightWords);
  }
  return watch.frames();
}
