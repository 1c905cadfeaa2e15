import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const PROGRAM = fileURLToPath(new URL('../../../bin/tautline.mjs', import.meta.url));
const BUILD = fileURLToPath(new URL('../../../scripts/build-if-stale.mjs', import.meta.url));

export interface Ended {
  /** null if a signal ended it */
  code: number | null;
  stdout: string;
  stderr: string;
}

interface RunOptions {
  /** Working folder; the package's own if left out. */
  cwd?: string;
  env?: Record<string, string>;
}

let built = false;

/** The build is what users run; "npm test" has made it already, a lone vitest makes it here. */
function buildOnce(): void {
  if (built) return;
  const done = spawnSync(process.execPath, [BUILD], { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`the program could not be built:\n${done.stderr}`);
  built = true;
}

/** Starts the program as a user does, in a process of its own. */
export function startCli(args: string[], options: RunOptions = {}): ChildProcess {
  buildOnce();
  return spawn(process.execPath, [PROGRAM, ...args], {
    cwd: options.cwd ?? ROOT,
    env: { ...process.env, FORCE_COLOR: undefined, TAUTLINE_DEBUG: undefined, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

/** Collects what a started program writes until it ends. */
export function endOf(child: ChildProcess): Promise<Ended> {
  let stdout = '';
  let stderr = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
}

/** Runs the program to its end. */
export function runCli(args: string[], options: RunOptions = {}): Promise<Ended> {
  return endOf(startCli(args, options));
}

/** A line that a stack trace would have. */
export const STACK = /^\s+at .*(:\d+:\d+|<anonymous>|node:)|\.(ts|m?js):\d+/m;
