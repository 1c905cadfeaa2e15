import type { BoardConsole } from './board-console.ts';
import type { LoadLimits } from './limits.ts';

/** What the interpreter says about itself. */
export interface Interpreter {
  /** For instance 2v29.277. */
  release: string;
  /** The interpreter's name for its board, for instance ESP32. */
  board: string;
}

/**
 * A line that every release understands, without echo (0x10 at its start). The marks are put together on the board,
 * so that an echo of the line is not taken for the answer.
 */
const QUESTION = '\x10print("<"+"T>",process.env.VERSION,process.env.BOARD,"<"+"/T>")\n';
const ANSWER = /<T>\s*(\S+)\s+(\S+)\s*<\/T>/;
const LOOK_EVERY_MS = 10;

/**
 * Asks again and again until the interpreter answers: boards that restart when the port opens hear nothing at first.
 * @param hopeless is asked in between; true ends the asking early
 * @returns undefined if there was no answer in time
 */
export async function probe(
  board: BoardConsole,
  limits: LoadLimits,
  hopeless: () => boolean,
): Promise<Interpreter | undefined> {
  const startMs = performance.now();
  let askedMs = Number.NEGATIVE_INFINITY;
  while (performance.now() - startMs < limits.probeMs) {
    if (performance.now() - askedMs >= limits.probeEveryMs) {
      askedMs = performance.now();
      await board.write(Buffer.from(QUESTION, 'latin1'));
    }
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
    const found = ANSWER.exec(board.text());
    if (found) return { release: found[1] as string, board: found[2] as string };
    if (hopeless()) return undefined;
  }
  return undefined;
}
