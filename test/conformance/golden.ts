/** What the interpreter made of the cases, kept so that runs without it compare with it all the same. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Outcome } from './runs.ts';

export interface GoldenCase {
  name: string;
  /** SHA-256 of the program's text. */
  program: string;
  /** Readings that it took. */
  reads: number;
  frames: number;
  /** SHA-256 of all frames, of all remembered doubles at all looks, and of the files at the end. */
  framesDigest: string;
  statesDigest: string;
  filesDigest: string;
}

export interface Golden {
  /** Version and commit. */
  interpreter: string;
  steps: number;
  cases: GoldenCase[];
}

export const GOLDEN_FILE = 'test/golden/board-frames.json';
export const GOLDEN_STEPS = 1000;
export const GOLDEN_CASES = 28;
export const RUN_AGAIN =
  'run "TAUTLINE_INTERPRETER=<interpreter> npx tsx test/conformance/make-golden.ts" and look at what changes';

export function readGolden(): Golden {
  return JSON.parse(readFileSync(GOLDEN_FILE, 'utf8')) as Golden;
}

export function sha256(text: string | Buffer): string {
  return createHash('sha256').update(text).digest('hex');
}

/** What there is to compare of a run; without the program's text, which may change while the frames do not. */
export function digests(outcome: Outcome): Omit<GoldenCase, 'name' | 'program'> {
  return {
    reads: outcome.reads,
    frames: outcome.frames.length,
    framesDigest: sha256(Buffer.from(outcome.frames.join(''), 'hex')),
    statesDigest: sha256(Buffer.from(outcome.states.join(''), 'hex')),
    filesDigest: sha256(outcome.files.join('\n')),
  };
}
