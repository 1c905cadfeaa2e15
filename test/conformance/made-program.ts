import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { type BoardText, makeProgram } from '../../workbench/bundle/make-program.ts';

const made = new Map<string, Promise<BoardText>>();

/** The program of a plan. Made once for all test files of a thread: it takes a quarter of a second. */
export function madeProgram(plan: BoardPlan): Promise<BoardText> {
  const key = JSON.stringify(plan);
  let text = made.get(key);
  if (!text) {
    text = makeProgram(plan);
    made.set(key, text);
  }
  return text;
}
