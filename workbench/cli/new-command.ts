import { existsSync } from 'node:fs';
import { Command, Option } from 'commander';
import { BOARD_IDS, type BoardId } from '../../firmware/boards/board.ts';
import { TautlineError } from '../../sim/errors.ts';
import { newPricesText } from '../parts/new-prices.ts';
import { newRigText } from '../rig/new-rig.ts';
import { checkOutput, writeOutput } from './write-output.ts';

interface NewOptions {
  hand: 'left' | 'right';
  board: BoardId;
  name?: string;
  prices?: true;
  json?: true;
}

export function newCommand(): Command {
  return new Command('new')
    .summary('write a commented rig file to start from, or a list of prices')
    .argument('[file]', 'file to write; - prints it (default: rig.yaml, or prices.yaml)')
    .addOption(new Option('--hand <side>', 'side of the hand').choices(['left', 'right']).default('right'))
    .addOption(new Option('--board <board>', 'board').choices(BOARD_IDS).default('esp32'))
    .option('--name <name>', 'name of the rig')
    .addOption(
      new Option('--prices', 'write a list of prices for "size" instead').conflicts([
        'hand',
        'board',
        'name',
      ]),
    )
    .option('--json', 'print {"file": ...} instead of a sentence')
    .action(run);
}

function run(path: string | undefined, options: NewOptions): void {
  const file = path ?? (options.prices ? 'prices.yaml' : 'rig.yaml');
  const text = options.prices ? newPricesText() : rigText(options);
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
    options.json ? `${JSON.stringify({ file })}\n` : `Wrote ${file}. ${nextStep(file, options)}\n`,
  );
}

function rigText({ hand: side, board, name }: NewOptions): string {
  return newRigText({ side, board, ...(name === undefined ? {} : { name }) });
}

function nextStep(file: string, options: NewOptions): string {
  return options.prices
    ? `All its prices are invented: put in your own, then run: tautline size rig.yaml --prices ${file}`
    : `Put in your own values, then run: tautline choose ${file}`;
}
