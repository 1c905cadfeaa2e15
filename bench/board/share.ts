/** From counted instructions and reads to time on a board. */
import type { BoardId } from '../../firmware/boards/board.ts';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { CYCLES_PER_INSTRUCTION } from '../../firmware/boards/cost-figures.ts';
import { type FrameProgram, withStandIn } from './callgrind.ts';
import { toldBy } from './plain-run.ts';

const COUNTED_FRAMES = 10;

/** Time in the interpreter, ms; good to a factor of 2. */
export function cpuMs(instructions: number, board: BoardId): number {
  return (instructions * CYCLES_PER_INSTRUCTION * 1000) / boardFacts(board).clockHz;
}

/**
 * Share of the frame time that the board spends in the interpreter and in its converter; above 1 it cannot keep the
 * rate. A converter's time holds all that one analogRead does: a board on which it reads twice has twice the time.
 * @param reads calls of analogRead a frame
 * @param frameRateHz > 0
 */
export function frameShare(instructions: number, reads: number, board: BoardId, frameRateHz: number): number {
  const ms = cpuMs(instructions, board) + (reads * boardFacts(board).readUs) / 1000;
  return (ms * frameRateHz) / 1000;
}

/** A program that counts its own reads. */
export function countingReads(program: FrameProgram): string {
  return `var _reads=0;function _read(){_reads++;return 0}
${withStandIn(program.text, '_read')}
_reads=0;
${`${program.call};\n`.repeat(COUNTED_FRAMES)}
print("READS "+_reads);
`;
}

/** Calls of analogRead a frame, counted in the run and not derived from the settings. */
export function readsPerFrame(interpreter: string, program: FrameProgram): number {
  return Number(toldBy(interpreter, countingReads(program), 'READS')) / COUNTED_FRAMES;
}
