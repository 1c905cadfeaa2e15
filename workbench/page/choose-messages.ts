import type { Rig } from '../../sim/rig/rig.ts';
import type { ChooseResult } from '../../sim/study/result.ts';

/** What the page asks of its worker. */
export interface ChooseOrder {
  rig: Rig;
  version: string;
  seed: number;
  draws: number;
}

export type ChooseReply =
  | { is: 'progress'; stage: string; share: number }
  | { is: 'done'; result: ChooseResult }
  | { is: 'trouble'; words: string };
