/** Counts the interpreter's instructions for one frame. Needs valgrind and the interpreter's Linux build. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { complaintOf, isAbort } from './complaint.ts';

/** A program for the interpreter that runs one frame when asked to. */
export interface FrameProgram {
  /** All declarations; no timer. */
  text: string;
  /** Expression that runs one frame. */
  call: string;
}

/** `rest`: all readings stay the same. `moving`: every reading is a new random number. */
export type Input = 'rest' | 'moving';

/** Stands in for the analog read, whose time is the converter's and not the interpreter's. */
const STAND_IN = { rest: 'Math.sqrt', moving: 'Math.random' } as const;
const SHORT = 30;
const LONG = 70;
const TRIES = 3;
/** Printed behind the last frame: a run without it stopped early. */
export const ALL_RAN = 'ALL FRAMES RAN';

/** The program with a stand-in for the reads and its frames on the standard output. */
export function withStandIn(text: string, read: string): string {
  return text.replace(/\banalogRead\b/g, read).replace(/\bSerial1\b/g, 'USB');
}

/** A name of two characters that the text does not hold: longer ones cost time. */
export function unusedName(text: string): string {
  const used = new Set(text.match(/[\w$]+/g));
  for (const letter of 'nabcdefghijklmopqrstuvwxyz') if (!used.has(`_${letter}`)) return `_${letter}`;
  throw new Error(
    'the program uses all names from _a to _z; expected at least one to be left for the counter',
  );
}

/** The program as it is run: with a stand-in for the reads, output on the standard output, and so many frames. */
export function runnable(program: FrameProgram, input: Input, frames: number): string {
  const text = withStandIn(program.text, STAND_IN[input]);
  const name = unusedName(`${text} ${program.call}`);
  // The counter comes last in the scope: each name ahead of another costs it time.
  return `${text}\nvar ${name}=${frames};while(${name}--)${program.call};\nprint("${ALL_RAN}");\n`;
}

/** Instructions of the interpreter's own thread from a callgrind file. */
export function totalOf(file: string): number {
  const total = /^(?:totals|summary): (\d+)/m.exec(file);
  if (!total) throw new Error('callgrind wrote no total; expected a line "totals: <instructions>"');
  return Number(total[1]);
}

/** Instructions a frame from two whole runs: what start-up costs is in both and falls out. */
export function slopeOf(shortTotal: number, longTotal: number): number {
  return (longTotal - shortTotal) / (LONG - SHORT);
}

/**
 * Two counts of one program differ by less than 0.2 %: the stand-in's random numbers start from the same seed, but
 * what the interpreter does between frames depends on the clock.
 * @param interpreter path of the Linux build
 * @throws Error with the end of the output if the program failed or stopped before its last frame
 */
export function instructionsPerFrame(interpreter: string, program: FrameProgram, input: Input): number {
  const [short, long] = [SHORT, LONG].map((frames) => count(interpreter, runnable(program, input, frames)));
  return slopeOf(short!, long!);
}

function count(interpreter: string, text: string): number {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-count-'));
  // Threads get a file each; the first one is the interpreter's.
  const counts = join(folder, 'count-01');
  try {
    writeFileSync(join(folder, 'program.js'), text);
    for (let left = TRIES - 1; ; left--) {
      rmSync(counts, { force: true });
      const { stdout, stderr } = spawnSync(
        'valgrind',
        [
          '--tool=callgrind',
          '--separate-threads=yes',
          '--callgrind-out-file=count',
          interpreter,
          'program.js',
        ],
        { cwd: folder, encoding: 'latin1', input: '', killSignal: 'SIGKILL', timeout: 120_000 },
      );
      // The interpreter last: the end is shown, and valgrind would have the last word.
      const said = `${stderr}${stdout}`;
      const complaint = complaintOf(said, ALL_RAN);
      if (!complaint && existsSync(counts)) return totalOf(readFileSync(counts, 'utf8'));
      // The Linux build ends now and then by an assertion of its own; a wrong program stays wrong.
      if (left === 0 || !isAbort(said)) {
        throw new Error(complaint ?? `callgrind wrote no counts; it said: ${said.slice(-400)}`);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
