import { Command, Option } from 'commander';
import { TautlineError } from '../../sim/errors.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { choose, DEFAULT_DRAWS } from '../../sim/study/choose.ts';
import { createRunner } from '../../sim/study/runner.ts';
import { type MeasuredRig, type MeasuredValue, measureNoise } from '../measure/measure-noise.ts';
import { chooseReport } from '../report/page.ts';
import { assumptionsOf } from '../rig/assumptions.ts';
import { writeSettings } from '../rig/write-settings.ts';
import { evidenceOf } from './evidence-of-file.ts';
import { EXIT } from './exit-code.ts';
import { DEFAULT_THREADS, loadStudy } from './load-study.ts';
import { wholeNumber } from './option-values.ts';
import { createProgress } from './progress.ts';
import { renderChoose } from './render-choose.ts';
import { restOption, seedOption, threadsOption } from './study-options.ts';
import { VERSION } from './version.ts';
import { checkApart, checkOutput, writeOutput } from './write-output.ts';

interface ChooseOptions {
  seed: number;
  draws: number;
  threads: number;
  json?: true;
  report?: string;
  rest?: string;
  from?: string;
  write?: true;
  full?: true;
}

const STAGES = { settings: 'settings on drawn builds', 'what-if': 'changes of the build' };

export function chooseCommand(): Command {
  return new Command('choose')
    .summary('the main job: which sampling and smoothing settings suit a build')
    .description(
      'Simulates the build of a rig file many times over, within the tolerances of its parts, and finds the\n' +
        'settings that meet your wishes: with jitter, lag and error to expect, how sure that is, and which\n' +
        'single change of the build would help most.',
    )
    .argument('<rig>', 'rig file, see "tautline new"')
    .addOption(seedOption())
    .addOption(
      new Option('--draws <n>', 'builds to draw from the tolerances')
        .default(DEFAULT_DRAWS)
        .argParser(wholeNumber(20, 100_000)),
    )
    .addOption(threadsOption())
    .addOption(restOption())
    .option('--from <session.csv>', 'take the noise from a recording of the workbench instead of the preset')
    .option('--report <file.html>', 'write a report to look at, one file, no network needed')
    .option('--write', 'put the chosen settings into the rig file; comments stay')
    .option('--full', 'run every setting over every draw; the pick is the same, only slower')
    .option('--json', 'print the result as JSON (without the full table: see "tautline sweep")')
    .addHelpText(
      'after',
      '\nExit code: 0 settings meet the wishes, 1 none do (the nearest are shown), 2 wrong input.\n' +
        `Same rig, same seed: same result to the last byte, on 1 thread or on ${DEFAULT_THREADS}.`,
    )
    .action(run);
}

/** The rig with what a recording tells of it; says on stderr what that changed. */
async function measuredRig(
  rig: Rig,
  { from, rest }: ChooseOptions,
): Promise<Pick<MeasuredRig, 'rig' | 'values'>> {
  if (from === undefined) return { rig, values: [] };
  if (rest !== undefined) {
    throw new TautlineError('input/both', '--from and --rest exclude each other.', {
      detail: 'Both tell the noise: take the one that was recorded last.',
    });
  }
  const measured = measureNoise(await evidenceOf(from), rig);
  for (const { path, assumed, measured: value, how } of measured.values) {
    process.stderr.write(`measured: ${path} ${value}, assumed was ${assumed} (${how})\n`);
  }
  for (const sentence of measured.unmeasured) process.stderr.write(`not measured: ${sentence}\n`);
  return measured;
}

/** Assumptions that a recording has replaced. */
function withoutMeasured(
  assumptions: ReturnType<typeof assumptionsOf>,
  measured: readonly MeasuredValue[],
): ReturnType<typeof assumptionsOf> {
  return measured.length === 0 ? assumptions : assumptions.filter(({ path }) => !path.startsWith('noise'));
}

async function run(path: string, options: ChooseOptions): Promise<void> {
  const input = loadStudy(path, options.rest);
  checkApart({ '--report': options.report }, [path, options.rest, options.from, input.parsed.restFile]);
  if (options.report !== undefined) checkOutput(options.report);
  const { parsed, rest } = input;
  const { rig, values: measured } = await measuredRig(parsed.rig, options);
  const warnings = [...input.warnings];
  if (options.draws < DEFAULT_DRAWS) {
    warnings.push(
      `${options.draws} draws are a first look; take ${DEFAULT_DRAWS} or more for an answer to build on.`,
    );
  }
  const progress = createProgress(false);
  const runner = createRunner(options.threads);
  try {
    const result = await choose(
      {
        rig,
        file: path,
        version: VERSION,
        seed: options.seed,
        draws: options.draws,
        giveUp: !options.full,
        assumptions: withoutMeasured(assumptionsOf(rig, parsed.source), measured),
        warnings,
        ...(rest ? { rest } : {}),
        ...(options.rest === undefined ? {} : { restFile: options.rest }),
        onProgress: (stage, done, total) => progress.show(STAGES[stage], done, total),
      },
      runner,
    );
    progress.stop();
    if (options.report !== undefined) writeOutput(options.report, chooseReport(result));
    const { table: _, ...parts } = result;
    // The scores of the pick, once more where programs look first.
    const plain = { ...parts, scores: result.pick.scores };
    process.stdout.write(
      options.json
        ? `${JSON.stringify(plain, null, 2)}\n`
        : renderChoose(result, {
            columns: process.stdout.columns ?? 80,
            color: process.stdout.isTTY === true,
          }),
    );
    if (options.report !== undefined) process.stderr.write(`report: ${options.report}\n`);
    if (options.write) {
      if (result.verdict.meets) {
        writeSettings(path, result.pick.settings, parsed.source);
        process.stderr.write(`settings written to ${path}\n`);
      } else {
        process.stderr.write(`nothing written to ${path}: the nearest settings do not meet the wishes\n`);
      }
    }
    process.exitCode = result.verdict.meets ? EXIT.done : EXIT.no;
  } finally {
    progress.stop();
    await runner.close();
  }
}
