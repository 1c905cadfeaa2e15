import { Command, Option } from 'commander';
import { createRunner } from '../../sim/study/runner.ts';
import { sweep } from '../../sim/study/sweep.ts';
import { loadStudy } from './load-study.ts';
import { wholeNumber } from './option-values.ts';
import { createProgress } from './progress.ts';
import { renderSweep, sweepCsv } from './render-sweep.ts';
import { restOption, seedOption, threadsOption } from './study-options.ts';
import { VERSION } from './version.ts';
import { checkApart, checkOutput, writeOutput } from './write-output.ts';

interface SweepOptions {
  seed: number;
  draws: number;
  threads: number;
  json?: true;
  csv?: string;
  rest?: string;
}

export function sweepCommand(): Command {
  return new Command('sweep')
    .summary('the full table: every setting with every score')
    .description('Runs every setting of the grid over the same drawn builds and gives the table of scores.')
    .argument('<rig>', 'rig file, see "tautline new"')
    .addOption(seedOption())
    .addOption(
      new Option('--draws <n>', 'builds to draw from the tolerances')
        .default(16)
        .argParser(wholeNumber(1, 10_000)),
    )
    .addOption(threadsOption())
    .addOption(restOption())
    .option('--csv <file>', 'write the table as CSV; - for standard output')
    .option('--json', 'print the table as JSON')
    .action(run);
}

async function run(path: string, options: SweepOptions): Promise<void> {
  const { parsed, rest } = loadStudy(path, options.rest);
  const toFile = options.csv !== undefined && options.csv !== '-';
  if (toFile) {
    checkApart({ '--csv': options.csv }, [path, options.rest, parsed.restFile]);
    checkOutput(options.csv as string);
  }
  const progress = createProgress(false);
  const runner = createRunner(options.threads);
  try {
    const rows = await sweep(
      {
        rig: parsed.rig,
        seed: options.seed,
        draws: options.draws,
        ...(rest ? { rest } : {}),
        onProgress: (done, total) => progress.show('settings on drawn builds', done, total),
      },
      runner,
    );
    progress.stop();
    if (toFile) writeOutput(options.csv as string, sweepCsv(rows));
    if (options.json) {
      const { seed, draws } = options;
      process.stdout.write(`${JSON.stringify({ command: 'sweep', version: VERSION, seed, draws, rows })}\n`);
    } else if (options.csv === '-') {
      process.stdout.write(sweepCsv(rows));
    } else {
      process.stdout.write(
        renderSweep(rows, {
          columns: process.stdout.columns ?? 80,
          color: process.stdout.isTTY === true,
          ...(toFile ? { file: options.csv as string } : {}),
        }),
      );
      process.stdout.write(
        `Seed ${options.seed}, ${options.draws} draws.${toFile ? '' : ' Write the table with --csv FILE or --json.'}\n`,
      );
    }
  } finally {
    progress.stop();
    await runner.close();
  }
}
