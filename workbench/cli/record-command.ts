import { randomInt } from 'node:crypto';
import { unlinkSync } from 'node:fs';
import { Command, Option } from 'commander';
import { TAG_MAX } from '../../protocol/commands.ts';
import { formatProblem, TautlineError } from '../../sim/errors.ts';
import { realClock } from '../live/clock.ts';
import { eventWords } from '../live/event-words.ts';
import { lineOfRig } from '../live/link-of-rig.ts';
import { programIdOfRig } from '../live/program-of-rig.ts';
import { recordSession } from '../live/record-session.ts';
import { createRecordingFile } from '../live/recording-file.ts';
import type { LinkHealth } from '../live/session-types.ts';
import { readRig } from '../rig/read-rig.ts';
import { onBoard } from './board-outcome.ts';
import { onInterrupt } from './on-interrupt.ts';
import { wholeNumber } from './option-values.ts';
import { LEAST_BAUD, MOST_BAUD } from './port-options.ts';
import { VERSION } from './version.ts';

interface RecordOptions {
  port?: string;
  out: string;
  seconds?: number;
  baud?: number;
  json?: true;
}

/** Time for a port to be opened and a board to start and send, s. */
const PATIENCE_S = 15;
/** Between two lines of progress, s. */
const PROGRESS_S = 10;

export function recordCommand(): Command {
  return new Command('record')
    .summary('record the frames of a board')
    .description(
      'Writes every frame of the board, and what happened on the way, to a CSV file.\n' +
        'Lines are on disk within a second, so that a crash costs no more. The port is\n' +
        'looked for again when the cable comes off. Ctrl-C ends the recording. Exit\n' +
        'code 1: no frame came, or the port cannot be opened.',
    )
    .argument('<rig>', 'rig file of the board')
    .option('--port <path>', 'port or serial number of the board; default: the only one there is')
    .requiredOption('--out <file.csv>', 'file to write; one that is there already is not replaced')
    .addOption(
      new Option('--seconds <n>', 'end so long after the first frame').argParser(wholeNumber(1, 1_000_000)),
    )
    .addOption(
      new Option('--baud <rate>', 'rate of the line; default: the rig file’s').argParser(
        wholeNumber(LEAST_BAUD, MOST_BAUD),
      ),
    )
    .option('--json', 'print the result as JSON')
    .action(run);
}

async function run(path: string, options: RecordOptions): Promise<void> {
  const { rig, warnings } = readRig(path);
  for (const warning of warnings) process.stderr.write(`warning: ${formatProblem(warning)}\n`);
  const line = lineOfRig(rig);
  const programId = await programIdOfRig(rig);
  // The driver loads only now: the other commands do without it.
  const { createSerialFinder } = await import('../live/serial-finder.ts');
  await onBoard('record', options.json === true, async () => {
    const find = createSerialFinder(options.port);
    if (!(await find())) throw noPort(options.port);
    const sink = createRecordingFile(options.out);
    const clock = realClock();
    const startS = clock.nowS();
    let toldS = 0;
    const recording = recordSession({
      find,
      sink,
      clock,
      baud: options.baud ?? line.baud,
      firstTag: randomInt(TAG_MAX + 1),
      ...(line.isFramesOnly ? {} : { settingsId: line.settingsId }),
      ...(line.isFramesOnly || programId === undefined ? {} : { programId }),
      facts: {
        rigName: rig.name,
        rigFile: path,
        settingsId: line.settingsId,
        programId,
        framePeriodS: line.framePeriodS,
        started: new Date().toISOString(),
        version: VERSION,
        isSimulated: false,
      },
      seconds: options.seconds ?? Number.POSITIVE_INFINITY,
      patienceS: PATIENCE_S,
      onEvent: (event) => void process.stderr.write(`${eventWords(event, startS)}\n`),
      onProgress(recordedS, health) {
        if (recordedS - toldS < PROGRESS_S) return;
        toldS = recordedS;
        process.stderr.write(
          `${recordedS.toFixed(0).padStart(5)} s recorded, ${health.frames} frames, ${health.lost} lost\n`,
        );
      },
    });
    const restore = onInterrupt(recording.stop);
    try {
      tell(options, await recording.done);
    } catch (error) {
      if (error instanceof TautlineError && error.code !== 'output/not-written') unlinkSync(options.out);
      throw error;
    } finally {
      restore();
    }
  });
}

function tell(
  options: RecordOptions,
  result: { frames: number; recordedS: number; health: LinkHealth },
): void {
  const { frames, recordedS, health } = result;
  process.stdout.write(
    options.json
      ? `${JSON.stringify({ command: 'record', version: VERSION, ok: true, out: options.out, ...result })}\n`
      : `${frames} frames in ${recordedS.toFixed(1)} s, ${health.lost} lost, written to ${options.out}. Look at it: tautline replay ${options.out}\n`,
  );
}

function noPort(wanted: string | undefined): TautlineError {
  return new TautlineError(
    'port/missing',
    wanted === undefined ? 'There is no serial port.' : `There is no port ${wanted}.`,
    {
      detail:
        'Expected the path or serial number of a plugged-in board. Check the cable (some carry power only), then run: tautline ports',
    },
  );
}
