/** Which interpreter was measured, or what is missing to measure one. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { toldBy } from './plain-run.ts';

export interface Interpreter {
  /** Version and commit, as it tells them. */
  interpreter: string;
  /** Of its file: builds of one version differ in speed. */
  sha256: string;
}

export function about(interpreter: string): Interpreter {
  const sha256 = createHash('sha256').update(readFileSync(interpreter)).digest('hex');
  const program = 'print("VERSION "+process.version+" "+process.env.GIT_COMMIT);\n';
  return { interpreter: toldBy(interpreter, program, 'VERSION'), sha256 };
}

/** What is missing, what was expected and what to do; undefined if nothing is. */
export function whatIsMissing(interpreter: string): string | undefined {
  if (interpreter === '' || !existsSync(interpreter)) {
    return `TAUTLINE_INTERPRETER is ${interpreter === '' ? 'not set' : `${interpreter}, which is not there`}. Expected the path of the interpreter's Linux build: clone espruino/Espruino, "make BOARD=LINUX RELEASE=1".`;
  }
  if (spawnSync('valgrind', ['--version']).status !== 0) {
    return 'valgrind is not there. Expected it on the path: "apt install valgrind".';
  }
  return undefined;
}
