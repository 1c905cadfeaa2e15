import { crc32Of } from '../../../protocol/crc32.ts';
import { CHOICE_FILE, otherLetter, PROGRAM_FILE, START_CODE } from './board-files.ts';
import type { Conversation } from './conversation.ts';
import { damagedError, fullError } from './late-errors.ts';
import { lostError, tightError } from './load-errors.ts';
import { nudge } from './nudge.ts';
import { PACKET_BYTES, padProgram } from './packet-lengths.ts';
import { probe } from './probe.ts';
import { UploadFailure } from './upload-tools.ts';

/** A program as it lies on the board. */
export interface StoredProgram {
  file: string;
  /** Padding included. */
  bytes: number;
  /** CRC-32/ISO-HDLC, as read back. */
  crc: number;
}

/** The interpreter needs so many free variables to take a packet. Computed: 512 bytes / 12, and its own needs. */
const VARIABLES_NEEDED = 100;
/** The start program, the choice and the files' headers, bytes. */
const BESIDE_PROGRAM = 512;
/** Tidying a storage takes seconds, ms. */
const COMPACT_LIMIT_MS = 30_000;
/** How often a program is sent until it arrives whole. */
const ATTEMPTS = 2;
const STORAGE = 'require("Storage")';

/**
 * Writes a program into the file that is not in use, reads it back, and makes it the one that runs at the next start.
 * Nothing may be running.
 * @param onProgress bytes sent so far and in all
 * @throws TautlineError
 */
export async function storeProgram(
  talk: Conversation,
  text: string,
  onProgress: (doneBytes: number, totalBytes: number) => void,
): Promise<StoredProgram> {
  const { ask, askNumbers, stage, evidence } = talk;
  const program = Buffer.from(padProgram(text), 'latin1');

  stage('looking at the storage');
  await makeRoom(talk, program.length + BESIDE_PROGRAM);
  const chosen = await ask(`""+${STORAGE}.read("${CHOICE_FILE}")`, 'it did not tell which program it runs');
  const letter = otherLetter(chosen);
  const file = PROGRAM_FILE + letter;
  const crc = crc32Of(program, 0, program.length) >>> 0;
  for (let left = ATTEMPTS - 1; ; left--) {
    await ask(`${STORAGE}.erase("${file}")`, 'it did not make room');
    stage('sending the program');
    await sendProgram(talk, file, program, onProgress);
    stage('reading the program back');
    const [length, boardCrc] = await askNumbers(
      `[${STORAGE}.read("${file}").length,E.CRC32(${STORAGE}.read("${file}"))]`,
      2,
      'it did not read the program back',
    );
    if (length === program.length && boardCrc! >>> 0 === crc) break;
    if (left === 0) throw damagedError(evidence().port, [length, boardCrc! >>> 0], [program.length, crc]);
  }

  stage('switching over');
  await writeSmall(talk, '.bootcde', START_CODE);
  await writeSmall(talk, CHOICE_FILE, letter);
  return { file, bytes: program.length, crc };
}

async function makeRoom(talk: Conversation, needed: number): Promise<void> {
  const { ask, askNumbers, stage, evidence, board, limits, ending } = talk;
  const measure = `[process.memory().free,${STORAGE}.getFree()]`;
  const [variables, room] = await askNumbers(measure, 2, 'it did not tell its memory');
  if (variables! < VARIABLES_NEEDED) throw tightError(evidence().port, variables!, VARIABLES_NEEDED);
  if (room! >= needed) return;
  stage('tidying the storage');
  // Nothing may point into the files while they are moved: reset first.
  await ask('reset()', 'it did not reset');
  await ending.until(probe(board, limits, () => false));
  await ask(`${STORAGE}.compact()`, 'it did not tidy its storage', COMPACT_LIMIT_MS);
  const [, after] = await askNumbers(measure, 2, 'it did not tell its storage');
  if (after! < needed) throw fullError(evidence().port, after!, needed);
}

async function sendProgram(
  talk: Conversation,
  file: string,
  program: Buffer,
  onProgress: (doneBytes: number, totalBytes: number) => void,
): Promise<void> {
  const { board, tools, limits, ending, evidence } = talk;
  let done = 0;
  const lost = (said: string): Error =>
    lostError(evidence(), `${done} of ${program.length} bytes came through`, said);
  let timers: NodeJS.Timeout[] = [];
  const stopTimers = (): void => {
    for (const timer of timers) clearTimeout(timer);
  };
  const restartTimers = (): void => {
    stopTimers();
    timers = [
      // A packet that comes out wrong by this is found when the file is read back.
      setTimeout(() => void nudge(board).catch(() => {}), limits.nudgeMs),
      setTimeout(() => ending.end(lost('It went silent.')), limits.stallMs),
    ];
  };
  restartTimers();
  try {
    await ending.until(
      tools.sendFile(file, program.toString('latin1'), PACKET_BYTES, (doneBytes) => {
        // Told before each packet: what lies before it is acknowledged.
        done = Math.max(0, doneBytes - PACKET_BYTES);
        restartTimers();
        onProgress(doneBytes, program.length);
      }),
    );
  } catch (error) {
    throw error instanceof UploadFailure ? lost(`The tools said: ${error.message}.`) : error;
  } finally {
    stopTimers();
  }
}

/** Writes a file of less than one packet, unless it is there already, and sees that it is right. */
async function writeSmall(talk: Conversation, file: string, text: string): Promise<void> {
  const { ask, evidence } = talk;
  const quoted = JSON.stringify(text);
  const isThere = async (): Promise<boolean> =>
    (await ask(`${STORAGE}.read("${file}")==${quoted}`, `it did not tell its ${file}`)) === true;
  if (await isThere()) return;
  await ask(`${STORAGE}.write("${file}",${quoted})`, `it did not take ${file}`);
  if (!(await isThere())) throw damagedError(evidence().port, [`another ${file}`], [text]);
}
