import { formatProblem } from '../../sim/errors.ts';
import type { Evidence } from '../diagnose/evidence.ts';
import { createFreeGatherer } from '../diagnose/gather.ts';
import { readRecording } from '../live/read-recording.ts';

/**
 * What a recording shows, its passages found by themselves; tells what was repaired in it on stderr.
 * @throws TautlineError `recording/...`
 */
export async function evidenceOf(path: string): Promise<Evidence> {
  const recording = await readRecording(path);
  const gatherer = createFreeGatherer();
  for await (const items of recording.items()) {
    for (const item of items) if ('frame' in item) gatherer.take(item.frame);
  }
  for (const warning of recording.warnings().listed) {
    process.stderr.write(`warning: ${formatProblem(warning)}\n`);
  }
  return gatherer.evidence();
}
