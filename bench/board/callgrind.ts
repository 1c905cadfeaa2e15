/** Counts the interpreter's instructions for one frame. Needs valgrind and the interpreter's Linux build. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

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

/** The program as it is run: with a stand-in for the reads, output on the standard output, and so many frames. */
export function runnable(program: FrameProgram, input: Input, frames: number): string {
  const text = program.text.replace(/\banalogRead\b/g, STAND_IN[input]).replace(/\bSerial1\b/g, 'USB');
  // The counter comes last in the scope: each name ahead of another costs it time.
  return `${text}\nvar _n=${frames};while(_n--)${program.call};\n`;
}

/** Instructions of the interpreter's own thread from a callgrind file. */
export function totalOf(file: string): number {
  const total = /^(?:totals|summary): (\d+)/m.exec(file);
  if (!total) throw new Error('callgrind wrote no total');
  return Number(total[1]);
}

/** @param interpreter path of the Linux build */
export function instructionsPerFrame(interpreter: string, program: FrameProgram, input: Input): number {
  const [short, long] = [SHORT, LONG].map((frames) => count(interpreter, runnable(program, input, frames)));
  return (long! - short!) / (LONG - SHORT);
}

function count(interpreter: string, text: string): number {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-count-'));
  let said = '';
  try {
    writeFileSync(join(folder, 'program.js'), text);
    for (let left = TRIES; left > 0; left--) {
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
      said = `${stdout}${stderr}`;
      // The Linux build ends now and then by an assertion of its own.
      if (/Uncaught|Error:|ASSERT/.test(said)) continue;
      return totalOf(readFileSync(join(folder, 'count-01'), 'utf8'));
    }
    throw new Error(`the interpreter said: ${said.replace(/[^\x20-\x7e\n]/g, '').slice(-400)}`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
