import { Command, InvalidArgumentError, Option } from 'commander';
import { formatProblem } from '../../sim/errors.ts';
import { verdictOf } from '../../sim/sizing/margin.ts';
import { sizeRig } from '../../sim/sizing/size-rig.ts';
import { readRig } from '../rig/read-rig.ts';
import { EXIT } from './exit-code.ts';
import { renderSize } from './render-size.ts';
import { VERSION } from './version.ts';

interface SizeOptions {
  hands?: [number, number];
  json?: true;
}

/** Hands that a rig is sized for beside its own: so much smaller and larger. Assumed. */
const SPREAD = 0.1;

export function sizeCommand(): Command {
  return new Command('size')
    .summary('check spool, spring, guides and wiring on paper')
    .description(
      'Works out from the parts whether the build can work: travel of the\n' +
        'potentiometers, torque that winds the strings in, pull at the fingertips, lost\n' +
        'motion, voltages in every corner of tolerance. Exit code 1: something will not\n' +
        'work; it is named with its cure.',
    )
    .argument('<rig>', 'rig file')
    .addOption(
      new Option(
        '--hands <a:b>',
        'smallest and largest hand, 1 = the mean; default: 10 % either side of the rig’s',
      ).argParser(handsOf),
    )
    .option('--json', 'print everything as JSON')
    .action(run);
}

function handsOf(text: string): [number, number] {
  const [low, high, more] = text.split(':').map(Number);
  const isRange = low !== undefined && high !== undefined && more === undefined;
  if (!isRange || !(low >= 0.5) || !(high <= 2) || !(low <= high)) {
    throw new InvalidArgumentError(`${text} is no range; expected for instance 0.9:1.1, within 0.5 to 2.`);
  }
  return [low, high];
}

function run(path: string, options: SizeOptions): void {
  const { rig, warnings } = readRig(path);
  for (const warning of warnings) process.stderr.write(`warning: ${formatProblem(warning)}\n`);
  const { scale } = rig.hand;
  const rounded = (value: number) => Number(value.toFixed(2));
  const size = sizeRig(rig, options.hands ?? [rounded(scale * (1 - SPREAD)), rounded(scale * (1 + SPREAD))]);
  const isFine = size.margins.every((margin) => verdictOf(margin) !== 'no');
  process.stdout.write(
    options.json
      ? `${JSON.stringify({ command: 'size', version: VERSION, ok: isFine, rig: rig.name, ...size })}\n`
      : renderSize(rig, size, Math.min(process.stdout.columns || 80, 100)),
  );
  process.exitCode = isFine ? EXIT.done : EXIT.no;
}
