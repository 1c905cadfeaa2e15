/* Host only. What a program remembers when it starts. */
import { type FingerState, newFingerState } from '../chain/finger.ts';
import { type ChainConstants, prepare } from '../chain/prepare.ts';
import type { BoardPlan } from './board-plan.ts';
import type { ButtonState, RunState } from './program.ts';

export interface InitialState {
  fingers: FingerState[];
  constants: ChainConstants[];
  buttons: ButtonState;
  run: RunState;
}

export function initialState(plan: BoardPlan): InitialState {
  const periodS = 1 / plan.frameRateHz;
  return {
    fingers: plan.fingers.map(newFingerState),
    constants: plan.fingers.map((f) => prepare(plan.settings, periodS, f.ends)),
    buttons: { pressed: 0, isBouncing: false, counts: plan.buttonPins.map(() => 0) },
    run: {
      sequence: 0,
      startS: 0,
      lastS: 0,
      isFresh: true,
      status: 0,
      errors: 0,
      beat: 0,
      rawSlot: -1,
      isCapturing: false,
      captured: 0,
      frozen: 0,
      turn: 0,
      mover: 0,
      moverAge: 5,
    },
  };
}

/** Open and closed ends of all five fingers, 0 for those that are not wired. */
export function initialEnds(plan: BoardPlan): number[] {
  const ends = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (const f of plan.fingers) {
    ends[2 * f.slot] = f.ends.open;
    ends[2 * f.slot + 1] = f.ends.closed;
  }
  return ends;
}
