import { boardFailure } from '../../../workbench/cli/board-outcome.ts';

export interface Outcome {
  exitCode: number;
  /** Code, message and advice of the error; '' if there was none. */
  code: string;
  message: string;
  next: string;
}

/** Runs work on a board and tells what the commands would tell the caller. Other errors are thrown on. */
export async function outcomeOf(work: () => Promise<unknown>): Promise<Outcome> {
  try {
    await work();
    return { exitCode: 0, code: '', message: '', next: '' };
  } catch (error) {
    const failure = boardFailure('test', error);
    if (!failure) throw error;
    const { code, message, next } = failure.json;
    return { exitCode: failure.exitCode, code, message, next };
  }
}
