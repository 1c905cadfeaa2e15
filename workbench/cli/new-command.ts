import { existsSync } from 'node:fs';
import { Command, Option } from 'commander';
import { BOARD_IDS, type BoardId } from '../../firmware/boards/board.ts';
import { TautlineError } from '../../sim/errors.ts';
import { newRigText } from '../rig/new-rig.ts';
import { checkOutput, writeOutput } from './write-output.ts';

interface NewOptions {
  hand: 'left' | 'right';
  board: BoardId;
  name?: string;
  json?: true;
}

export function newCommand(): Command {
  return new Command('new')
    .summary('write a commented rig file to start from')
    .argument('[file]', 'file to write; - prints it', 'rig.yaml')
    .addOption(new Option('--hand <side>', 'side of the hand').choices(['left', 'right']).default('right'))
    .addOption(new Option('--board <board>', 'board').choices(BOARD_IDS).default('esp32'))
    .option('--name <name>', 'name of the rig')
    .option('--json', 'print {"file": ...} instead of a sentence')
    .action(run);
}

function run(file: string, options: NewOptions): void {
  const text = newRigText({
    side: options.hand,
    board: options.board,
    ...(options.name === undefined ? {} : { name: options.name }),
  });
  if (file === '-') {
    process.stdout.write(text);
    return;
  }
  if (existsSync(file)) {
    throw new TautlineError('output/exists', `${file} is there already; nothing was written.`, {
      detail: 'Name another file, or move the old one away first.',
      places: [{ file, line: 0, column: 0 }],
    });
  }
  checkOutput(file);
  writeOutput(file, text);
  process.stdout.write(
    options.json
      ? `${JSON.stringify({ file })}\n`
      : `Wrote ${file}. Put in your own values, then run: tautline choose ${file}\n`,
  );
}
