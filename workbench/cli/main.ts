import { guardProcess } from './guard-process.ts';
import { run } from './run.ts';

/**
 * The program: runs a command line in a process of its own and sets its exit code.
 * @param args arguments after the program's name
 */
export async function main(args: string[]): Promise<void> {
  guardProcess();
  await run(args);
}
