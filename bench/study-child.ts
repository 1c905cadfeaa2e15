import { performance } from 'node:perf_hooks';
import { defaultRig } from '../sim/rig/default-rig.ts';
import { choose } from '../sim/study/choose.ts';
import { createRunner } from '../sim/study/runner.ts';

/** What one run of the study took. */
export interface StudyFigures {
  /** From the start of the study to its result, without starting Node. */
  seconds: number;
  /** Settings x finger traces of the race; those of the what-if part are not counted, its time is. */
  evaluations: number;
  /** Largest resident set of the process with all its threads, MB (10^6 bytes). */
  peakMB: number;
}

const start = performance.now();
const runner = createRunner(Number(process.argv[2]));
const result = await choose({ rig: defaultRig(), file: 'default', version: 'bench', seed: 7 }, runner);
await runner.close();
const figures: StudyFigures = {
  seconds: (performance.now() - start) / 1000,
  evaluations: result.evaluations,
  // Node gives kibibytes on every system.
  peakMB: (process.resourceUsage().maxRSS * 1024) / 1e6,
};
process.stdout.write(`${JSON.stringify(figures)}\n`);
