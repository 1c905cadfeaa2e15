import { VERSION } from './version.ts';

/**
 * What to say about an error that no one foresaw: one that a user can do nothing about but report.
 * @param debug true adds the stack trace, for those who look for the fault
 * @returns text that ends with a newline
 */
export function tellFault(error: unknown, debug: boolean): string {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  const lines = [
    `tautline ${VERSION} has a fault: ${what}`,
    'This is not your doing. Please report it: the command as you typed it, the rig file, and this text.',
  ];
  if (!debug)
    lines.push('With TAUTLINE_DEBUG=1 in the environment it tells where in the program it happened.');
  else if (error instanceof Error && error.stack !== undefined) lines.push(error.stack);
  lines.push('(internal/fault)');
  return `${lines.join('\n')}\n`;
}

/** Whether the caller wants stack traces. */
export function wantsStack(): boolean {
  return process.env.TAUTLINE_DEBUG === '1';
}
