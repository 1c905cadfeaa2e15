import type { BoardId } from '../../firmware/boards/board.ts';
import { BOARD_IDS } from '../../firmware/boards/board.ts';
import { boardFacts } from '../../firmware/boards/boards.ts';
import { programCost } from '../../firmware/boards/cost.ts';
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { FRAME_BYTES } from '../../protocol/frame.ts';

/** Bits on the line for a byte: start, eight, stop. */
const BITS_PER_BYTE = 10;
/** Share of the line that frames may take: health frames, replies and printed words come between. Assumed. */
export const LINE_SHARE = 0.8;
/** Rate of the interpreter's console. */
export const CONSOLE_BAUD = 115_200;

/** What a program costs on one board. */
export interface BoardFit {
  board: BoardId;
  /** Interpreter, ms a frame; good to a factor of two. */
  cpuMs: number;
  /** Analog reads, ms a frame. */
  adcMs: number;
  /** Both as a share of the frame time. */
  share: number;
}

/** Costs on all boards; the first one is the rig's. */
export function fitOf(plan: BoardPlan, own: BoardId): BoardFit[] {
  const boards = [own, ...BOARD_IDS.filter((id) => id !== own)];
  return boards
    .filter((id) => boardFacts(id).status !== 'unusable')
    .map((board) => {
      const { cpuMs, adcUs, totalMs } = programCost(plan, board);
      return { board, cpuMs, adcMs: adcUs / 1000, share: (totalMs * plan.frameRateHz) / 1000 };
    });
}

/** Share of the serial line that the hand frames take. */
export function lineShare(plan: BoardPlan): number {
  const baud = plan.frameUart === 'console' ? CONSOLE_BAUD : plan.frameUart.baud;
  return (FRAME_BYTES * BITS_PER_BYTE * plan.frameRateHz) / baud;
}

/** Largest frame rate that the line carries, Hz. */
export function fastestLineHz(plan: BoardPlan): number {
  return Math.floor((plan.frameRateHz * LINE_SHARE) / lineShare(plan));
}
