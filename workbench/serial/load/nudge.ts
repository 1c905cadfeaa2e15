import type { BoardConsole } from './board-console.ts';

/** More than a burst that boards were seen to lose. */
const FILLER_BYTES = 64;

/**
 * Gets a board out of a packet that lost bytes on the way: it waits for the rest, up to 5 s, and would take the
 * beginning of the next packet for it. Spaces fill the packet up; what they made of it must be checked. Spaces and
 * line ends that are too many do nothing on the console.
 */
export async function nudge(board: BoardConsole): Promise<void> {
  await board.write(Buffer.from(`${' '.repeat(FILLER_BYTES)}\n`, 'latin1'));
}
