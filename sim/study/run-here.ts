import { type DrawTask, runDrawTask } from './draw-task.ts';
import { HAND_SCORES } from './hand-scores.ts';

/** Gives way to whatever waits; browsers have no immediate turn. */
const later: (call: () => void) => unknown =
  (globalThis as { setImmediate?: (call: () => void) => unknown }).setImmediate ??
  ((call) => setTimeout(call, 0));

/**
 * Runs a draw task on this thread. Gives way between draws, so that progress can be shown and an interrupt is heard.
 * @returns [draw][setting] rows of HAND_SCORES numbers
 */
export async function runHere(task: DrawTask): Promise<Float64Array> {
  const width = task.settings.length * HAND_SCORES;
  const all = new Float64Array(task.draws.length * width);
  for (const [d, draw] of task.draws.entries()) {
    await new Promise<void>((resolve) => later(resolve));
    all.set(runDrawTask({ ...task, draws: [draw] }), d * width);
  }
  return all;
}
