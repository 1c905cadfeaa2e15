import { createEnding, endAfter } from '../ending.ts';
import { type Link, RUN_LINES } from '../link.ts';
import { endError } from '../port-errors.ts';
import { createBoardConsole } from './board-console.ts';
import { createConversation } from './conversation.ts';
import { type Pace, USUAL_PACE } from './gate.ts';
import { type LoadLimits, USUAL_LIMITS } from './limits.ts';
import { bootError, checkRelease, type Evidence, silenceError } from './load-errors.ts';
import { type Interpreter, probe } from './probe.ts';
import type { RightProgram } from './running.ts';
import { startProgram } from './start-program.ts';
import { storeProgram } from './store-program.ts';
import { startUploadTools, type UploadTools } from './upload-tools.ts';

export interface LoadRequest {
  link: Link;
  /** Program, ASCII. */
  program: string;
  /** Recognises the program by its frames; see hasProgramId. */
  isRight: RightProgram;
  /** What isRight looks for, for messages: "program version 57". */
  rightWords: string;
  /** bits per second */
  baud: number;
  pace?: Pace;
  limits?: Partial<LoadLimits>;
  onStage?(words: string): void;
  /** Bytes of the program that the board has acknowledged. */
  onProgress?(doneBytes: number, totalBytes: number): void;
}

export interface LoadResult {
  interpreter: Interpreter;
  /** File on the board that holds the program. */
  boardFile: string;
  /** Bytes sent, padding included. */
  programBytes: number;
  /** CRC-32/ISO-HDLC of those bytes, as read back. */
  crc: number;
  /** Frames seen when the program counted as running. */
  framesSeen: number;
  tookMs: number;
}

/**
 * Loads a program onto a board and sees it run. Stops what runs there, writes the file that is not in use by the
 * interpreter's own tools, reads it back, switches over, and waits for the program's frames. The port is closed in
 * every case.
 * @throws TautlineError `load/...` or `port/...`, each with its own advice
 */
export async function load(request: LoadRequest): Promise<LoadResult> {
  const { link, baud } = request;
  const limits = { ...USUAL_LIMITS, ...request.limits };
  const startMs = performance.now();
  const ending = createEnding();
  let during = 'opening the port';
  const stage = (words: string): void => {
    during = words;
    request.onStage?.(words);
  };
  const stopClock = endAfter(ending, limits.totalMs, link.name, () => during);
  link.onEnd((end) =>
    ending.end(
      endError(link.name, end, during, 'The old program is still on the board: plug it in and load again.'),
    ),
  );

  const board = createBoardConsole(link, request.pace ?? USUAL_PACE, limits.xonMs);
  const write = async (bytes: Uint8Array): Promise<void> => {
    try {
      await board.write(bytes);
    } catch (error) {
      ending.end(error);
      throw error;
    }
  };
  const evidence = (): Evidence => ({
    port: link.name,
    baud,
    text: board.text(),
    counters: board.counters(),
  });
  const console = { ...board, write };
  let starting: Promise<UploadTools> | undefined;

  try {
    await ending.until(link.open(baud, RUN_LINES));

    stage('asking the interpreter');
    const hopeless = (): boolean => bootError(evidence())?.code === 'load/flash-mode';
    const interpreter = await ending.until(probe(console, limits, hopeless));
    if (!interpreter) throw board.flowStuck() ?? silenceError(evidence());
    checkRelease(link.name, interpreter.release);

    starting = startUploadTools(write);
    const tools = await ending.until(starting);
    board.onConsole((bytes) => tools.received(bytes));

    const talk = createConversation({ board: console, tools, limits, ending, evidence, stage });

    stage('stopping the running program');
    await talk.ask('(clearInterval(),clearWatch(),1)', 'it did not stop its program');
    board.clearText();
    board.obeyFlowControl();
    const stored = await storeProgram(talk, request.program, (done, total) =>
      request.onProgress?.(done, total),
    );
    const framesSeen = await startProgram(talk, request.isRight, request.rightWords);
    return {
      interpreter,
      boardFile: stored.file,
      programBytes: stored.bytes,
      crc: stored.crc,
      framesSeen,
      tookMs: performance.now() - startMs,
    };
  } finally {
    stopClock();
    starting?.then(
      (tools) => tools.close(),
      () => {},
    );
    await link.close();
  }
}
