import type { Ending } from '../ending.ts';
import type { BoardConsole } from './board-console.ts';
import type { LoadLimits } from './limits.ts';
import { type Evidence, lostError } from './load-errors.ts';
import { nudge } from './nudge.ts';
import { padPacket } from './packet-lengths.ts';
import { UploadFailure, type UploadTools } from './upload-tools.ts';

/** An interpreter that answers, and all that the steps of a load need to talk to it. */
export interface Conversation {
  board: BoardConsole;
  tools: UploadTools;
  limits: LoadLimits;
  ending: Ending;
  evidence(): Evidence;
  /** Tells what is done next, for the user and for the message of an error. */
  stage(words: string): void;
  /**
   * Evaluates an expression on the board, three times if need be: a byte may get lost, or one of a running program may look
   * like a refusal. So only expressions that may be evaluated again.
   * @param what end of the sentence "it answered at first, then not: ..."
   * @throws TautlineError
   */
  ask(text: string, what: string, limitMs?: number): Promise<unknown>;
  /** The same for an expression that gives so many numbers, as an array. */
  askNumbers(text: string, count: number, what: string): Promise<number[]>;
}

/** How often a question is put. */
const ATTEMPTS = 3;
/** For what the board answers to a nudge, ms. */
const AFTER_NUDGE_MS = 100;

export function createConversation(parts: Omit<Conversation, 'ask' | 'askNumbers'>): Conversation {
  const { tools, limits, ending, evidence } = parts;

  async function ask(text: string, what: string, limitMs = limits.answerMs): Promise<unknown> {
    for (let left = ATTEMPTS - 1; ; left--) {
      try {
        return await ending.until(tools.evaluate(padPacket(text), limitMs));
      } catch (error) {
        if (!(error instanceof UploadFailure)) throw error;
        if (left === 0)
          throw parts.board.flowStuck() ?? lostError(evidence(), what, `The tools said: ${error.message}.`);
        await ending.until(nudge(parts.board));
        await ending.until(new Promise((resolve) => setTimeout(resolve, AFTER_NUDGE_MS)));
      }
    }
  }

  async function askNumbers(text: string, count: number, what: string): Promise<number[]> {
    const value = await ask(text, what);
    if (!Array.isArray(value) || value.length !== count || !value.every((one) => typeof one === 'number')) {
      throw lostError(evidence(), what, `It answered ${JSON.stringify(value)}; expected ${count} numbers.`);
    }
    return value;
  }

  return { ...parts, ask, askNumbers };
}
