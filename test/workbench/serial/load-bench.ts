import { type LoadRequest, type LoadResult, load } from '../../../workbench/serial/load/load.ts';
import { hasProgramId } from '../../../workbench/serial/load/running.ts';
import { createMemoryLink, type Plug } from '../../../workbench/serial/memory-link.ts';
import { createEmulatedBoard, type EmulatedBoard, type Faults } from './emulated-board.ts';
import { type Outcome, outcomeOf } from './outcome.ts';
import { streamingProgram } from './streaming-program.ts';

export const ID = 57;

export interface BoardBench {
  board: EmulatedBoard;
  plug: Plug;
  /** Loads a program that streams as version 57, or what is given. */
  load(more?: Partial<LoadRequest>): Promise<LoadResult>;
}

/** A loader and an emulated board in memory. */
export function boardBench(faults: Faults = {}): BoardBench {
  let board: EmulatedBoard | undefined;
  let plug: Plug | undefined;
  const link = () =>
    createMemoryLink('MEM', (given) => {
      plug = given;
      const old = board?.storage;
      board = createEmulatedBoard(given, faults);
      if (old) for (const [name, text] of old) board.storage.set(name, text);
      return board;
    });
  let next = link();
  return {
    get board() {
      return board!;
    },
    get plug() {
      return plug!;
    },
    async load(more = {}) {
      const mine = next;
      try {
        return await load({
          link: mine,
          program: streamingProgram(ID, 1500),
          isRight: hasProgramId(ID),
          rightWords: `program version ${ID}`,
          baud: 115_200,
          ...more,
        });
      } finally {
        board?.stop();
        next = link();
      }
    },
  };
}

/** How a load onto a faulty board ends; the port must be released. */
export async function failingLoad(
  faults: Faults,
  limits: LoadRequest['limits'] = {},
  more: Partial<LoadRequest> = {},
): Promise<Outcome & { bench: BoardBench; released: boolean; heard: number }> {
  const bench = boardBench(faults);
  const { plug, board } = bench;
  const outcome = await outcomeOf(() => bench.load({ limits, ...more }));
  return { ...outcome, bench, released: !plug.isOpen(), heard: board.heard() };
}
