import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Figure } from './print.ts';
import type { StudyFigures } from './study-child.ts';

/** The default `choose` study from end to end, each time in a process of its own: time and memory. */
export async function study(repetitions: number): Promise<Figure[]> {
  const child = fileURLToPath(new URL('./study-child.js', import.meta.url));
  const runs = new Map<number, StudyFigures[]>([
    [1, []],
    [2, []],
  ]);
  for (let i = 0; i < repetitions; i++) {
    for (const [threads, done] of runs) {
      const out = execFileSync(process.execPath, [child, `${threads}`], { encoding: 'utf8' });
      done.push(JSON.parse(out) as StudyFigures);
    }
  }
  return [...runs].flatMap(([threads, done]) => {
    const impl = `product, ${threads} thread${threads > 1 ? 's' : ''}`;
    const figure = (what: string, name: keyof StudyFigures, unit: string) => ({
      bench: 'study',
      impl: `${impl}: ${what}`,
      values: done.map((run) => run[name]),
      unit,
    });
    return [
      figure('time', 'seconds', 's'),
      figure('evaluations', 'evaluations', 'evaluations'),
      figure('peak memory', 'peakMB', 'MB'),
    ];
  });
}
