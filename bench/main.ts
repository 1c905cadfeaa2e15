import { spawnSync } from 'node:child_process';
import { cpus, loadavg, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';
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

const asked = process.argv.slice(2);
const wanted = asked.length > 0 ? asked : Object.keys(BENCHES);
const unknown = wanted.filter((name) => !(name in BENCHES));
if (unknown.length > 0) {
  process.stderr.write(
    `There is no bench "${unknown.join('", "')}". Expected some of: ${Object.keys(BENCHES).join(', ')}; none for all.\n`,
  );
  process.exitCode = 2;
} else if (wanted.length > 1) {
  // Each in a process of its own: what an earlier bench leaves to the engine slows the next one's baseline.
  for (const name of wanted) {
    const done = spawnSync(process.execPath, [fileURLToPath(import.meta.url), name], { stdio: 'inherit' });
    if (done.status !== 0) process.exitCode = 1;
  }
} else {
  await runOne(wanted[0]);
}

async function runOne(name: string): Promise<void> {
  const load = loadavg()[0].toFixed(2);
  const memory = Math.round(totalmem() / 1e9);
  process.stderr.write(
    `Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model.trim()}, ${memory} GB; load ${load} before the start\n`,
  );
  printHeadings();
  print(await BENCHES[name](name === 'study' ? STUDY_REPETITIONS : REPETITIONS));
  // The benches themselves keep one processor busy, two where two threads are at work; more is somebody else.
  process.stderr.write(`load ${loadavg()[0].toFixed(2)} after the end\n`);
}
