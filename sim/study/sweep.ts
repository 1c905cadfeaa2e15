import type { Settings } from '../../firmware/chain/settings.ts';
import type { RestRecording, Rig } from '../rig/rig.ts';
import { defaultGrid } from './grid.ts';
import { race } from './race.ts';
import type { TableRow } from './result.ts';
import type { Runner } from './runner.ts';
import { tableOf } from './table.ts';

export interface SweepJob {
  rig: Rig;
  rest?: RestRecording;
  seed: number;
  draws: number;
  settings?: Settings[];
  onProgress?: (done: number, total: number) => void;
}

/** Every setting over every draw, also those that are too slow for the board: the full table. */
export async function sweep(job: SweepJob, runner: Runner): Promise<TableRow[]> {
  const settings = job.settings ?? defaultGrid();
  const { rig, seed, draws, rest, onProgress } = job;
  const result = await race(
    {
      rig,
      seed,
      settings,
      draws,
      allowedMisses: 0,
      keep: settings.length,
      giveUp: false,
      ...(rest ? { rest } : {}),
      ...(onProgress ? { onProgress } : {}),
    },
    runner,
  );
  return tableOf(settings, result.entries, rig);
}
