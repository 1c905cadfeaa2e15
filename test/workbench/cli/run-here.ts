import { vi } from 'vitest';
import { run } from '../../../workbench/cli/run.ts';
import type { Ended } from './run-cli.ts';

/** Runs a command line in this process: a hundred times quicker than a process of its own. */
export async function runHere(...args: string[]): Promise<Ended> {
  const told = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      told[name] += String(text);
      return true;
    }),
  );
  const before = process.exitCode;
  process.exitCode = undefined;
  try {
    await run(args);
    return { code: Number(process.exitCode ?? 0), ...told };
  } finally {
    process.exitCode = before;
    for (const spy of spies) spy.mockRestore();
  }
}
