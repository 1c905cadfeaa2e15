import { Command, Option } from 'commander';
import { TautlineError } from '../../sim/errors.ts';
import { SLOW_PACE, USUAL_PACE } from '../serial/load/gate.ts';
import { readProgram } from '../serial/load/program-file.ts';
import { hasProgramId } from '../serial/load/running.ts';
import { onBoard } from './board-outcome.ts';
import { wholeNumber } from './option-values.ts';
import { LEAST_BAUD, MOST_BAUD, portOption, USUAL_BAUD } from './port-options.ts';
import { createProgress } from './progress.ts';
import { VERSION } from './version.ts';

interface LoadOptions {
  port: string;
  baud: number;
  expectId?: number;
  slow?: true;
  timeout: number;
  json?: true;
}

export function loadCommand(): Command {
  return new Command('load')
    .summary('load a program onto a board and see it run')
    .description(
      'Stops what runs on the board, writes the program into the file that is not in use, reads it back, switches\n' +
        'over, and waits until frames of this very program arrive. The board needs the interpreter: tautline flash.',
    )
    .argument('<program>', 'folder of a bundle (bundle.json), or a .js file with its .json beside it')
    .addOption(portOption())
    .addOption(
      new Option('--baud <rate>', 'rate of the board’s console')
        .default(USUAL_BAUD)
        .argParser(wholeNumber(LEAST_BAUD, MOST_BAUD)),
    )
    .addOption(
      new Option('--expect-id <n>', 'program version to wait for, instead of that in the JSON').argParser(
        wholeNumber(0, 255),
      ),
    )
    .option('--slow', 'send at a fifth of the pace, for boards that lose bytes')
    .addOption(
      new Option('--timeout <s>', 'give up after this time').default(60).argParser(wholeNumber(1, 3600)),
    )
    .option('--json', 'print the result as JSON')
    .action(run);
}

async function run(path: string, options: LoadOptions): Promise<void> {
  const program = readProgram(path);
  const id = options.expectId ?? program.expectedId;
  if (id === undefined) {
    throw new TautlineError(
      'program/no-id',
      `${program.file}: nothing says by which version it is recognised.`,
      {
        detail:
          'Expected {"expectedId": 57} in the JSON beside it, or --expect-id 57: the program version in its health frames.',
      },
    );
  }
  // The driver loads only now: the other commands do without it.
  const { createSerialLink } = await import('../serial/serial-link.ts');
  const { load } = await import('../serial/load/load.ts');
  const progress = createProgress(false);
  await onBoard('load', options.json === true, async () => {
    try {
      const result = await load({
        link: createSerialLink(options.port),
        program: program.text,
        isRight: hasProgramId(id),
        rightWords: `program version ${id}`,
        baud: options.baud,
        pace: options.slow ? SLOW_PACE : USUAL_PACE,
        limits: { totalMs: options.timeout * 1000 },
        onStage(words) {
          progress.stop();
          process.stderr.write(`${words}\n`);
        },
        onProgress: (done, total) => progress.show('sent', done, total),
      });
      progress.stop();
      const { interpreter, programBytes, tookMs } = result;
      process.stdout.write(
        options.json
          ? `${JSON.stringify({ command: 'load', version: VERSION, ok: true, port: options.port, programId: id, ...result })}\n`
          : `Program version ${id} runs on ${options.port} (${interpreter.board}, interpreter ${interpreter.release}): ${programBytes} bytes in ${(tookMs / 1000).toFixed(1)} s.\n`,
      );
    } finally {
      progress.stop();
    }
  });
}
