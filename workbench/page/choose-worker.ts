/// <reference lib="webworker" />
import { choose } from '../../sim/study/choose.ts';
import { runHere } from '../../sim/study/run-here.ts';
import type { ChooseOrder, ChooseReply } from './choose-messages.ts';

/** `choose` beside the page, so that the live view keeps its pace. */

const STAGES = { settings: 'Settings on drawn builds', 'what-if': 'Changes of the build' };
const tell = (reply: ChooseReply) => (self as unknown as Worker).postMessage(reply);

self.onmessage = async ({ data }: MessageEvent<ChooseOrder>) => {
  try {
    const result = await choose(
      {
        ...data,
        file: data.rig.name,
        giveUp: true,
        assumptions: [],
        warnings: [],
        onProgress: (stage, done, total) =>
          tell({ is: 'progress', stage: STAGES[stage], share: done / total }),
      },
      { run: runHere, close: async () => {} },
    );
    // The full table is large, and the page shows none of it.
    tell({ is: 'done', result: { ...result, table: [] } });
  } catch (error) {
    tell({ is: 'trouble', words: error instanceof Error ? error.message : String(error) });
  }
};
