import { move } from 'piscina';
import { type DrawTask, runDrawTask } from './draw-task.ts';

/** Entry of a worker thread: one task in, its scores out without a copy. */
export default function work(task: DrawTask) {
  return move(runDrawTask(task).buffer as ArrayBuffer);
}
