import { Command, InvalidArgumentError, Option } from 'commander';
import { formatProblem } from '../../sim/errors.ts';
import { partsList } from '../../sim/sizing/parts/parts-list.ts';
import { defaultPrices } from '../parts/default-prices.ts';
import { totalWords } from '../parts/parts-words.ts';
import { readPrices } from '../parts/read-prices.ts';
import { buildSheetHtml } from '../report/size/build-sheet.ts';
import { sizeReport } from '../report/size/size-page.ts';
import { readRig } from '../rig/read-rig.ts';
import { fingerSheets } from '../size/finger-sheets.ts';
import { type SizeAnswer, sizeRigFile } from '../size/size-rig-file.ts';
import { writeChanges } from '../size/write-changes.ts';
import { EXIT } from './exit-code.ts';
import { checkFolder, makeFolder } from './output-folder.ts';
import { renderSize } from './render-size.ts';
import { VERSION } from './version.ts';
import { checkApart, checkOutput, writeOutput } from './write-output.ts';

interface SizeOptions {
  hands?: [number, number];
  prices?: string;
  report?: string;
  sheet?: string;
  stl?: string;
  write?: true;
  full?: true;
  json?: true;
}

/** Hands that a rig is sized for beside its own: so much smaller and larger. Assumed. */
const SPREAD = 0.1;

export function sizeCommand(): Command {
  return new Command('size')
    .summary('check a build on paper: spool, spring, wiring, pins, power, parts; propose what to change')
    .description(
      'Works out from the parts of a rig file whether the build can work, before anything is bought:\n' +
        'travel of the potentiometers, torque that winds the strings in, pull at the fingertips, lost\n' +
        'motion, voltages in every corner of tolerance, pins, current, parts and what they cost. Names what\n' +
        'breaks first with its cure, and proposes values.',
    )
    .argument('<rig>', 'rig file, see "tautline new"')
    .addOption(
      new Option(
        '--hands <a:b>',
        'smallest and largest hand, 1 = the mean; default: 10 % either side of the rig’s',
      ).argParser(handsOf),
    )
    .option('--prices <file.yaml>', 'your prices, see "tautline new --prices"; else invented round figures')
    .option('--report <file.html>', 'write a report with drawings, one file, no network needed')
    .option('--sheet <file.html>', 'write one page to build from, made to be printed')
    .option('--stl <folder>', 'write the parts to print, one STL file each, in mm')
    .option('--write', 'put the proposed values into the rig file; comments stay')
    .option('--full', 'print every table')
    .option('--json', 'print everything as JSON')
    .addHelpText(
      'after',
      '\nExit code: 0 nothing is in the way (with --write: with the values written), 1 something is, 2 wrong input.',
    )
    .action(run);
}

function handsOf(text: string): [number, number] {
  const [low, high, more] = text.split(':').map(Number);
  const isRange = low !== undefined && high !== undefined && more === undefined;
  if (!isRange || !(low >= 0.5) || !(high <= 2) || !(low <= high)) {
    throw new InvalidArgumentError(`"${text}" is no range; expected for instance 0.9:1.1, within 0.5 to 2.`);
  }
  return [low, high];
}

/** To two places, away from the rig's own size. */
function handsAbout(scale: number): [number, number] {
  const rounded = (value: number) => Number(value.toFixed(2));
  return [rounded(scale * (1 - SPREAD)), rounded(scale * (1 + SPREAD))];
}

async function run(path: string, options: SizeOptions): Promise<void> {
  const parsed = readRig(path);
  const warnings = parsed.warnings.map(formatProblem);
  for (const warning of warnings) process.stderr.write(`warning: ${warning}\n`);
  const prices = options.prices === undefined ? defaultPrices() : readPrices(options.prices);
  checkApart({ '--report': options.report, '--sheet': options.sheet }, [path, options.prices]);
  if (options.report !== undefined) checkOutput(options.report);
  if (options.sheet !== undefined) checkOutput(options.sheet);
  if (options.stl !== undefined) checkFolder(options.stl, '--stl');
  const hands = options.hands ?? handsAbout(parsed.rig.hand.scale);
  const answer = sizeRigFile(parsed, { version: VERSION, file: path, warnings }, hands, prices);
  process.stdout.write(options.json ? jsonOf(answer) : text(answer, options.full ?? false));
  const isWritten = options.write === true && answer.proposal.changes.length > 0;
  if (options.write) write(path, answer, parsed.source);
  const built = isWritten
    ? sizeRigFile(readRig(path), { version: VERSION, file: path, warnings }, hands, prices)
    : answer;
  if (options.report !== undefined) put(options.report, 'report', sizeReport(built));
  if (options.sheet !== undefined) put(options.sheet, 'build sheet', sheet(built));
  if (options.stl !== undefined) await writeStl(options.stl, built);
  process.exitCode = built.ok ? EXIT.done : EXIT.no;
}

function text(answer: SizeAnswer, isFull: boolean): string {
  return renderSize(answer, Math.min(process.stdout.columns || 80, 100), isFull);
}

function jsonOf(answer: SizeAnswer): string {
  const { rig, ...rest } = answer;
  return `${JSON.stringify({ command: 'size', ...rest, rig: rig.name })}\n`;
}

function write(path: string, { proposal }: SizeAnswer, source: ReturnType<typeof readRig>['source']): void {
  if (proposal.changes.length === 0) {
    process.stderr.write(`nothing to write to ${path}: no value has to change\n`);
    return;
  }
  writeChanges(path, proposal.changes, source);
  const count = proposal.changes.length;
  process.stderr.write(`${count} change${count === 1 ? '' : 's'} written to ${path}\n`);
}

function put(path: string, what: string, content: string): void {
  writeOutput(path, content);
  process.stderr.write(`${what}: ${path}\n`);
}

function sheet({ rig, size, version, file, proposal }: SizeAnswer): string {
  return buildSheetHtml({
    rig,
    version,
    file,
    parts: partsList(rig, 1),
    cost: totalWords(size.parts),
    fingers: fingerSheets(size),
    warnings: proposal.failing.slice(0, 3).map(({ what, seen, cure }) => `${what}: ${seen}. ${cure}.`),
  });
}

/** The solids need a library of some size: it is loaded only here. */
async function writeStl(folder: string, { rig, size }: SizeAnswer): Promise<void> {
  const { writePrintables } = await import('../printables/printable-set.ts');
  makeFolder(folder);
  const written = await writePrintables(rig, size.set.dimensions, folder);
  process.stderr.write(`${written.length} parts to print: ${folder}\n`);
}
