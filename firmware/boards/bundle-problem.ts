/* Host only. */
import type { BoardId } from './board.ts';
import { boardFacts } from './boards.ts';

export interface BundleProblem {
  seen: string;
  expected: string;
  next: string;
}

/**
 * Why no program can be made for a board; undefined if one can. An `experimental` board can have one: it may read
 * wrongly, an `unusable` one cannot read at all.
 */
export function bundleProblem(board: BoardId): BundleProblem | undefined {
  const facts = boardFacts(board);
  if (facts.status !== 'unusable') return undefined;
  return {
    seen: `board ${board}: ${facts.statusReason}`,
    expected: 'a board whose build of the interpreter declares analog pins',
    next: 'take "board: esp32"; "choose" works for this board all the same',
  };
}
