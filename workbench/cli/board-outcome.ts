import { formatProblems, TautlineError } from '../../sim/errors.ts';
import { EXIT } from './exit-code.ts';

/** Codes of errors that lie with the board or its port, not with what the user handed in. */
const BOARD_AREAS = /^(port|flash|load|live)\//;

/** What a caller gets to see of a failed piece of work on a board. */
export interface BoardFailure {
  exitCode: number;
  /** For stderr, without a newline at the end. */
  text: string;
  /** For stdout with --json. */
  json: { command: string; ok: false; code: string; message: string; next: string };
}

/** @returns undefined if the trouble lies elsewhere, for instance in the input */
export function boardFailure(command: string, error: unknown): BoardFailure | undefined {
  if (!(error instanceof TautlineError) || !BOARD_AREAS.test(error.code)) return undefined;
  const { code, message, detail } = error;
  return {
    exitCode: EXIT.no,
    text: formatProblems(error),
    json: { command, ok: false, code, message, next: detail },
  };
}

/**
 * Runs work on a board. If the board or its port is the trouble, tells it and sets exit code 1 ("the answer is no");
 * wrong input is left to the caller.
 */
export async function onBoard(command: string, json: boolean, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    const failure = boardFailure(command, error);
    if (!failure) throw error;
    process.stderr.write(`${failure.text}\n`);
    if (json) process.stdout.write(`${JSON.stringify(failure.json)}\n`);
    process.exitCode = failure.exitCode;
  }
}
