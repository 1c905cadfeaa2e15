import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { TautlineError } from '../../../sim/errors.ts';

/** A folder of its own for the test file that asks for it, removed at the end. */
export function testFolder(): {
  path: (name: string) => string;
  put: (name: string, content: string | Buffer) => string;
} {
  const folder = mkdtempSync(join(tmpdir(), 'tautline-rig-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const path = (name: string) => join(folder, name);
  return {
    path,
    put(name, content) {
      writeFileSync(path(name), content);
      return path(name);
    },
  };
}

/** The TautlineError that an action throws; anything else fails the test. */
export function errorOf(action: () => unknown): TautlineError {
  try {
    action();
  } catch (error) {
    if (error instanceof TautlineError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}
