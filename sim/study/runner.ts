import { Piscina } from 'piscina';
import type { DrawTask } from './draw-task.ts';
import { HAND_SCORES } from './hand-scores.ts';
import { runHere } from './run-here.ts';

/** Runs draw tasks, on this thread or on several; the result is the same to the bit. */
export interface Runner {
  /** @returns [draw][setting] rows of HAND_SCORES numbers */
  run(task: DrawTask): Promise<Float64Array>;
  close(): Promise<void>;
}

/**
 * @param threads 1 = everything on this thread
 */
export function createRunner(threads: number): Runner {
  if (threads <= 1) return { run: runHere, close: async () => {} };
  const source = import.meta.url.endsWith('.ts');
  const pool = new Piscina({
    filename: new URL(source ? './draw-worker.ts' : './draw-worker.js', import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
    execArgv: source ? ['--import', 'tsx'] : [],
  });
  return {
    async run(task) {
      const width = task.settings.length * HAND_SCORES;
      const all = new Float64Array(task.draws.length * width);
      await Promise.all(
        task.draws.map(async (draw, d) => {
          const part = (await pool.run({ ...task, draws: [draw] })) as ArrayBuffer;
          all.set(new Float64Array(part), d * width);
        }),
      );
      return all;
    },
    close: () => pool.destroy(),
  };
}
