/** What a run of the interpreter says about itself, between the frames' bytes. */

const TAIL = 400;

/** Whether the Linux build ended by an assertion of its own, which may not happen in a second run. */
export function isAbort(said: string): boolean {
  return said.includes('ASSERT');
}

/**
 * @param said all output, a character a byte
 * @param end what the program prints when it is through
 * @returns undefined if the run was in order
 */
export function complaintOf(said: string, end: string): string | undefined {
  const isWrong = isAbort(said) || /Uncaught|[Ee]rror\b/.test(said);
  if (!isWrong && said.includes(end)) return undefined;
  const tail = said.replace(/[^\x20-\x7e\n]/g, '').slice(-TAIL);
  return `the interpreter ${isWrong ? 'reported an error' : `ended without printing "${end}"`}; it said: ${tail}`;
}
