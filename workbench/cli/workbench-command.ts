import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { Command, InvalidArgumentError, Option } from 'commander';
import { formatProblem, TautlineError } from '../../sim/errors.ts';
import type { PageConfig } from '../page/config.ts';
import { readRig } from '../rig/read-rig.ts';
import { writeSettings } from '../rig/write-settings.ts';
import { listPorts } from '../serial/list-ports.ts';
import { createSerialLink } from '../serial/serial-link.ts';
import { pageFiles } from '../server/page-files.ts';
import { settingsOfPage } from '../server/page-settings.ts';
import { createSaves } from '../server/saves.ts';
import { serveWorkbench } from '../server/workbench-server.ts';
import { wholeNumber } from './option-values.ts';
import { VERSION } from './version.ts';

interface WorkbenchOptions {
  port?: string;
  replay?: string;
  simulate?: true;
  saves: string;
  seed: number;
  speed: number;
  open: boolean;
  listen: number;
}

export function workbenchCommand(): Command {
  return new Command('workbench')
    .summary('the page: see the live hand, record it, find the fault, calibrate, choose again')
    .description(
      'Serves a page on this machine only and opens it in your browser: the live hand, first light,\n' +
        'calibration, diagnosis, settings and sizes. It works the same with a board on a port, with a\n' +
        'recording, and with the simulator.',
    )
    .argument('<rig>', 'rig file')
    .option('--port <path>', 'serial port of the board, see "tautline ports"')
    .option('--replay <file.csv>', 'play a recording in place of a board')
    .option('--simulate', 'take the simulator, which is the default without --port and --replay')
    .addOption(
      new Option('--seed <n>', 'seed of the simulator').default(1).argParser(wholeNumber(0, 2 ** 31 - 1)),
    )
    .addOption(
      new Option('--speed <n>', 'times as fast as life, for the simulator')
        .default(1)
        .argParser(wholeNumber(1, 20)),
    )
    .option('--saves <folder>', 'where recordings and profiles are kept', 'tautline-saves')
    .addOption(
      new Option('--listen <n>', 'port number to serve on; 0 = any free one')
        .default(0)
        .argParser(wholeNumber(0, 65_535)),
    )
    .option('--no-open', 'print the address, open no browser')
    .addHelpText(
      'after',
      '\nThe address holds a key: whoever has it can use the board and your saves. It answers this machine only.\nEnd it with Ctrl-C.',
    )
    .action(run);
}

async function run(path: string, options: WorkbenchOptions): Promise<void> {
  if (options.port !== undefined && options.replay !== undefined) {
    throw new InvalidArgumentError('--port and --replay exclude each other: choose one.');
  }
  const { source, warnings } = readRig(path);
  for (const warning of warnings) process.stderr.write(`warning: ${formatProblem(warning)}\n`);
  const { replay } = options;
  if (replay !== undefined) readRecording(replay);
  const config: PageConfig = {
    version: VERSION,
    rigFile: path,
    rigText: source.text,
    source:
      options.port !== undefined
        ? { kind: 'port', path: options.port }
        : replay !== undefined
          ? { kind: 'recording', file: replay }
          : { kind: 'simulator', seed: options.seed, speed: options.speed },
  };
  const server = await serveWorkbench(
    pageFiles(config, replay === undefined ? undefined : () => readRecording(replay)),
    {
      listPorts,
      createLink: createSerialLink,
      saves: createSaves(options.saves),
      writeSettings: (settings) => writeSettings(path, settingsOfPage(settings)),
    },
    options.listen,
  );
  process.stdout.write(`Workbench: ${server.address}\n`);
  process.stderr.write('It answers this machine only. End it with Ctrl-C.\n');
  if (options.open) openBrowser(server.address);
  await new Promise<void>((resolve) => {
    process.once('SIGINT', resolve);
    process.once('SIGTERM', resolve);
  });
  await server.close();
}

function readRecording(path: string): Buffer {
  try {
    return readFileSync(path);
  } catch (cause) {
    throw new TautlineError('recording/not-found', `${path} could not be read.`, {
      detail: 'Check the path of the recording.',
      places: [{ file: path, line: 0, column: 0 }],
      cause,
    });
  }
}

/** Opens the address as each system does; where that fails, the address is printed already. */
function openBrowser(address: string): void {
  const [program, args]: [string, string[]] =
    process.platform === 'darwin'
      ? ['open', [address]]
      : process.platform === 'win32'
        ? ['cmd', ['/c', 'start', '', address.replaceAll('&', '^&')]]
        : ['xdg-open', [address]];
  const child = spawn(program, args, { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}
