import { type DrawTask, runDrawTask } from './draw-task.ts';
import { HAND_SCORES } from './hand-scores.ts';

/**
 * Runs a draw task on this thread. Gives way between draws, so that progress can be shown and an interrupt is heard.
 * @returns [draw][setting] rows of HAND_SCORES numbers
 */
export async function runHere(task: DrawTask): Promise<Float64Array> {
  const width = task.settings.length * HAND_SCORES;
  const all = new Float64Array(task.draws.length * width);
  for (const [d, draw] of task.draws.entries()) {
    await new Promise((resolve) => setTimeout(resolve, 0));
    all.set(runDrawTask({ ...task, draws: [draw] }), d * width);
  }
  return all;
}
