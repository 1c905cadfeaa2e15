import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Outcome } from './runs.ts';

/** What the interpreter made of one case. */
export interface GoldenCase {
  name: string;
  /** SHA-256 of the program's text. */
  program: string;
  /** Readings that it took. */
  reads: number;
  frames: number;
  /** SHA-256 of all frames, and of all remembered doubles at all looks. */
  framesDigest: string;
  statesDigest: string;
}

export interface Golden {
  interpreter: string;
  steps: number;
  cases: GoldenCase[];
}

export const GOLDEN_FILE = 'test/golden/board-frames.json';
export const GOLDEN_STEPS = 1000;
export const GOLDEN_CASES = 26;

export function readGolden(): Golden {
  return JSON.parse(readFileSync(GOLDEN_FILE, 'utf8')) as Golden;
}

export function sha256(text: string | Buffer): string {
  return createHash('sha256').update(text).digest('hex');
}

export function goldenCase(name: string, program: string, outcome: Outcome): GoldenCase {
  return {
    name,
    program: sha256(program),
    reads: outcome.reads,
    frames: outcome.frames.length,
    framesDigest: sha256(Buffer.from(outcome.frames.join(''), 'hex')),
    statesDigest: sha256(Buffer.from(outcome.states.join(''), 'hex')),
  };
}
