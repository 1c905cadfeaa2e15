import { cpus, loadavg, totalmem } from 'node:os';
import { frames } from './frames.ts';
import { type Figure, print, printHeadings } from './print.ts';
import { settings } from './settings.ts';
import { simulate } from './simulate.ts';
import { study } from './study.ts';

const BENCHES: Record<string, (repetitions: number) => Promise<Figure[]>> = {
  simulate,
  settings,
  frames,
  study,
};
const REPETITIONS = 7;
const STUDY_REPETITIONS = 5;

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in BENCHES));
if (unknown.length > 0) {
  process.stderr.write(
    `There is no bench "${unknown.join('", "')}". Expected some of: ${Object.keys(BENCHES).join(', ')}; none for all.\n`,
  );
  process.exitCode = 2;
} else {
  const load = loadavg()[0].toFixed(2);
  const memory = Math.round(totalmem() / 1e9);
  process.stderr.write(
    `Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model.trim()}, ${memory} GB; load ${load} before the start\n`,
  );
  printHeadings();
  for (const [name, bench] of Object.entries(BENCHES)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    print(await bench(name === 'study' ? STUDY_REPETITIONS : REPETITIONS));
  }
  // The benches themselves keep one processor busy, two where two threads are at work; more is somebody else.
  process.stderr.write(`load ${loadavg()[0].toFixed(2)} after the end\n`);
}
