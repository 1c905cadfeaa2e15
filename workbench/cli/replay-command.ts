import { Command, InvalidArgumentError, Option } from 'commander';
import { formatProblem } from '../../sim/errors.ts';
import { realClock } from '../live/clock.ts';
import { eventWords } from '../live/event-words.ts';
import { readRecording } from '../live/read-recording.ts';
import type { Recording } from '../live/recording.ts';
import { type ReplayResult, replaySession } from '../live/replay-session.ts';
import { plainText } from '../report/escape.ts';
import { EXIT } from './exit-code.ts';
import { onInterrupt } from './on-interrupt.ts';
import { VERSION } from './version.ts';

interface ReplayOptions {
  speed?: number;
  json?: true;
}

const MOST_SPEED = 1000;

export function replayCommand(): Command {
  return new Command('replay')
    .summary('play a recording and tell what happened')
    .description(
      'Plays a recording as the board that it was and tells how the link did: frames,\n' +
        'losses, evenness, starts, unplugged cables. Exit code 1: there is no frame in it.',
    )
    .argument('<recording>', 'file that "tautline record" wrote')
    .addOption(
      new Option('--speed <n>', 'times as fast as recorded; default: as fast as it goes').argParser(speedOf),
    )
    .option('--json', 'print everything as JSON')
    .action(run);
}

function speedOf(text: string): number {
  const speed = text.trim() === '' ? Number.NaN : Number(text);
  if (!(speed >= 0.01 && speed <= MOST_SPEED)) {
    throw new InvalidArgumentError(`Expected a number from 0.01 to ${MOST_SPEED}, for instance 1.`);
  }
  return speed;
}

async function run(path: string, options: ReplayOptions): Promise<void> {
  const recording = await readRecording(path);
  let isStopped = false;
  const restore = onInterrupt(() => {
    isStopped = true;
  });
  try {
    const result = await replaySession({
      recording,
      speed: options.speed,
      clock: realClock(),
      wantsStop: () => isStopped,
    });
    const { listed, more } = recording.warnings();
    for (const warning of listed) process.stderr.write(`warning: ${plainLines(formatProblem(warning))}\n`);
    if (more > 0) process.stderr.write(`warning: ${more} more like these\n`);
    const isFine = result.health.frames > 0;
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ command: 'replay', version: VERSION, ok: isFine, file: path, facts: recording.facts, warnings: [...listed], moreWarnings: more, ...result })}\n`
        : words(recording, result),
    );
    if (!isFine) process.exitCode = EXIT.no;
  } finally {
    restore();
  }
}

function plainLines(text: string): string {
  return text.split('\n').map(plainText).join('\n');
}

function words({ facts }: Recording, { health, events, moreEvents, playedS }: ReplayResult): string {
  const { frames, lost } = health;
  const source = facts.isSimulated ? 'the simulator' : 'a board';
  const rate = playedS > 0 ? frames / playedS : 0;
  const share = frames + lost > 0 ? (100 * lost) / (frames + lost) : 0;
  const drift = health.driftPpm === undefined ? 'not known' : `${health.driftPpm.toFixed(0)} ppm`;
  const startS = events[0]?.hostS ?? 0;
  const lines = [
    plainText(
      `${facts.rigName || 'A rig without a name'}: ${playedS.toFixed(1)} s of ${source}, recorded ${facts.started || 'some time'} by tautline ${facts.version || 'of unknown version'}`,
    ),
    `  frames    ${frames}, ${rate.toFixed(1)} a second`,
    `  lost      ${lost} (${share.toPrecision(2)} %), repeated ${health.duplicates}, late ${health.reordered}`,
    `  evenness  ${health.jitterMs.toFixed(2)} ms from frame to frame (standard deviation), by the board's clock`,
    `  clocks    ${drift} apart`,
    `  starts    ${health.starts} seen, ${health.brownOuts} of them for lack of voltage`,
    'What happened',
    ...events.map((event) => eventWords(event, startS)),
  ];
  if (moreEvents > 0) lines.push(`  and ${moreEvents} things more`);
  if (frames === 0) lines.push('No: there is no frame in it. Record again while frames come.');
  return `${lines.join('\n')}\n`;
}
