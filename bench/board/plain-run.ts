/** Runs a program on the interpreter alone and takes what it tells. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { complaintOf, isAbort } from './complaint.ts';

const TRIES = 3;

/**
 * @param word the program prints it before what it tells
 * @returns the rest of that line
 * @throws Error with the end of the output if the program failed or told nothing
 */
export function toldBy(interpreter: string, text: string, word: string): string {
  for (let left = TRIES - 1; ; left--) {
    // a new folder each time: the interpreter keeps its flash in a file there
    const folder = mkdtempSync(join(tmpdir(), 'tautline-told-'));
    try {
      writeFileSync(join(folder, 'program.js'), text);
      const { stdout } = spawnSync(interpreter, ['program.js'], {
        cwd: folder,
        encoding: 'latin1',
        input: '',
        timeout: 20_000,
        killSignal: 'SIGKILL',
      });
      const complaint = complaintOf(stdout, `${word} `);
      if (!complaint) return new RegExp(`${word} (.*)`).exec(stdout)![1]!.trim();
      // The Linux build ends now and then by an assertion of its own.
      if (left === 0 || !isAbort(stdout)) throw new Error(complaint);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
}
