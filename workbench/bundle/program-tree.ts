/** The program's argument as the specialiser sees it: what is folded, what is a variable. */
import type { ChainConstants } from '../../firmware/chain/prepare.ts';
import type { BoardPlan } from '../../firmware/main/board-plan.ts';
import { initialState } from '../../firmware/main/initial-state.ts';
import { buildOf, type Layout } from '../../firmware/main/layout.ts';
import { FINGER_NUMBERS, HAND_NUMBERS } from '../../firmware/main/live-keys.ts';
import { Slot, slotsOf, type Tree } from '../../specialise/tree.ts';

export function programTree(plan: BoardPlan, layout: Layout, io: Tree): { [key: string]: Tree } {
  const state = initialState(plan);
  const first = state.constants[0]!;
  const shared = slotsOf('hand', Object.fromEntries(HAND_NUMBERS.map((key) => [key, first[key]])));
  const constantsOf = (k: ChainConstants, i: number): Tree => ({
    ...k,
    ...slotsOf(`finger${i}`, Object.fromEntries(FINGER_NUMBERS.map((key) => [key, k[key]]))),
    ...shared,
  });
  return {
    build: { ...buildOf(plan, layout) },
    io,
    fingers: state.fingers.map((f, i) => slotsOf(`finger${i}`, { ...f })),
    constants: state.constants.map(constantsOf),
    buttons: {
      ...slotsOf('buttons', { pressed: state.buttons.pressed, isBouncing: state.buttons.isBouncing }),
      counts: state.buttons.counts.map((count, i) => new Slot(`button${i}`, count)),
    },
    run: slotsOf('run', { ...state.run }),
  };
}
