import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { Command, Option } from 'commander';
import { bundleProblem } from '../../firmware/boards/bundle-problem.ts';
import { formatProblem, TautlineError } from '../../sim/errors.ts';
import { bundleFacts, bundleReport } from '../bundle/bundle-report.ts';
import { fastestLineHz, fitOf, LINE_SHARE, lineShare } from '../bundle/fit.ts';
import { programIdOf } from '../bundle/ids.ts';
import { planOfRig } from '../bundle/plan-of-rig.ts';
import { wrapWords } from '../report/wrap.ts';
import { readRig } from '../rig/read-rig.ts';
import { EXIT } from './exit-code.ts';
import { wholeNumber } from './option-values.ts';
import { checkFolder, makeFolder } from './output-folder.ts';
import { VERSION } from './version.ts';
import { writeOutput } from './write-output.ts';

interface BundleOptions {
  out: string;
  watchdog?: number;
  json?: true;
}

export function bundleCommand(): Command {
  return new Command('bundle')
    .summary('make the board’s program for a rig')
    .description(
      'Makes one flat program out of the very functions that the simulator runs, for\n' +
        'this rig, its pins and its chosen settings. Writes board.js (for "tautline\n' +
        'load"), bundle.json, board.map.json (which part of the program comes from which\n' +
        'line of the source) and report.txt (size and cost). Exit code 1: the board\n' +
        'cannot keep the frame rate, or the line cannot carry it; nothing is written.',
    )
    .argument('<rig>', 'rig file with a settings block (tautline choose --write)')
    .requiredOption('--out <folder>', 'folder for the files; made if it is not there')
    .addOption(
      new Option(
        '--watchdog <s>',
        'restart a board that hangs after this time; default: the rig file’s',
      ).argParser(wholeNumber(1, 60)),
    )
    .option('--json', 'print what the report says as JSON')
    .action(run);
}

async function run(path: string, options: BundleOptions): Promise<void> {
  const { rig, warnings } = readRig(path);
  if (options.watchdog !== undefined) rig.watchdogS = options.watchdog;
  for (const warning of warnings) process.stderr.write(`warning: ${formatProblem(warning)}\n`);
  const refused = bundleProblem(rig.board);
  if (refused) {
    throw new TautlineError('bundle/board', `${path}: ${refused.seen}`, {
      detail: `Expected ${refused.expected}; ${refused.next}.`,
    });
  }
  checkFolder(options.out, '--out');
  const planned = planOfRig(rig);
  const [own] = fitOf(planned, rig.board);
  const no = refusal(own!.share, lineShare(planned), planned.frameRateHz, fastestLineHz(planned));
  if (no !== undefined) {
    if (options.json) {
      const answer = {
        command: 'bundle',
        version: VERSION,
        ok: false,
        reason: no,
        boards: fitOf(planned, rig.board),
      };
      process.stdout.write(`${JSON.stringify(answer)}\n`);
    } else process.stdout.write(`${wrapWords(`No: ${no}`, 80).join('\n')}\n`);
    process.exitCode = EXIT.no;
    return;
  }
  if (own!.share > rig.wishes.frameShare) {
    process.stderr.write(
      `warning: a frame takes about ${Math.round(100 * own!.share)} % of its time; your wish is at most ${Math.round(100 * rig.wishes.frameShare)} %\n`,
    );
  }
  // Loads terser and the board's source: the other commands do without them.
  const { makeProgram } = await import('../bundle/make-program.ts');
  const { text: draft } = await makeProgram(planned);
  const plan = { ...planned, facts: { ...planned.facts, programId: programIdOf(draft) } };
  const program = await makeProgram(plan);
  const facts = bundleFacts(rig, plan, program);
  const sha256 = createHash('sha256').update(program.text).digest('hex');
  const bundle = {
    program: 'board.js',
    expectedId: plan.facts.programId,
    tautline: VERSION,
    sha256,
    ...facts,
  };
  const report = bundleReport(rig, plan, program);
  makeFolder(options.out);
  const put = (name: string, text: string) => writeOutput(join(options.out, name), text);
  put('board.map.json', `${JSON.stringify(program.map)}\n`);
  put('report.txt', report);
  put('board.js', program.text);
  put('bundle.json', `${JSON.stringify(bundle, null, 2)}\n`);
  process.stdout.write(
    options.json
      ? `${JSON.stringify({ command: 'bundle', version: VERSION, ok: true, out: options.out, ...bundle })}\n`
      : `${report}\nWritten to ${options.out}. Next: tautline load ${options.out} --port <port>\n`,
  );
}

/** Why this program cannot run; undefined if it can. */
function refusal(share: number, line: number, rateHz: number, lineHz: number): string | undefined {
  if (line > LINE_SHARE) {
    return `${rateHz} frames a second take ${Math.round(100 * line)} % of the serial line; at most 80 % leave room for replies. ${lineHz} frames a second would fit: set "frameRate" to that.`;
  }
  if (share > 1) {
    return `a frame would take ${Math.round(100 * share)} % of its time, so the board cannot keep ${rateHz} frames a second. About ${Math.floor(rateHz / share)} would fit; fewer readings ("oversampling") or a lower "frameRate" help.`;
  }
  return undefined;
}
