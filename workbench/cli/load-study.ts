import { availableParallelism } from 'node:os';
import { formatProblem, type Problem } from '../../sim/errors.ts';
import type { RestRecording, Rig } from '../../sim/rig/rig.ts';
import { restChannels } from '../../sim/study/rest-channels.ts';
import { readRest } from '../rig/read-rest.ts';
import { type ParsedRig, readRig } from '../rig/read-rig.ts';

/** A rig file with the recording that goes with it. */
export interface StudyInput {
  parsed: ParsedRig;
  rest?: RestRecording;
  /** One line each. */
  warnings: string[];
}

/** A study uses the threads that the machine has; more than eight bring nothing. */
export const DEFAULT_THREADS = Math.min(8, availableParallelism());

/**
 * Reads what a study needs and tells warnings on stderr.
 * @param restPath recording given on the command line; it wins over the one that the rig names
 */
export function loadStudy(rigPath: string, restPath?: string): StudyInput {
  const parsed = readRig(rigPath);
  const file = restPath ?? parsed.restFile;
  const recorded = file === undefined ? undefined : readRest(file);
  const problems: Problem[] = [...parsed.warnings, ...(recorded?.warnings ?? [])];
  const notes = recorded ? channelNotes(recorded.recording, parsed.rig) : [];
  for (const note of notes) process.stderr.write(`warning: ${note}\n`);
  for (const problem of problems) process.stderr.write(`warning: ${formatProblem(problem)}\n`);
  return {
    parsed,
    ...(recorded ? { rest: recorded.recording } : {}),
    warnings: [
      ...notes,
      ...problems.map((p) => `${p.file}:${p.line}:${p.column}: ${p.seen}; expected: ${p.expected}`),
    ],
  };
}

/** Which fingers a recording stands for by position only. */
function channelNotes(recording: RestRecording, rig: Rig): string[] {
  const guessed = restChannels(recording.channelNames, rig).flatMap(({ channel, named }, i) =>
    named ? [] : [`${recording.channelNames[channel]} for ${rig.fingers[i].name}`],
  );
  if (guessed.length === 0) return [];
  return [
    `${recording.file}: columns are not named after fingers, so they are taken by position: ${guessed.join(', ')}`,
  ];
}
