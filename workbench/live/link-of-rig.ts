import { bundleProblem } from '../../firmware/boards/bundle-problem.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { programIdOf, settingsIdOf } from '../bundle/ids.ts';
import { planOfRig } from '../bundle/plan-of-rig.ts';

/** The rate of a board's console, bits a second. */
const CONSOLE_BAUD = 115_200;

/** What a rig says of the line over which its frames come. */
export interface RigLine {
  baud: number;
  framePeriodS: number;
  settingsId: number;
  /** Frames come on a port of their own, which takes no commands. */
  isFramesOnly: boolean;
}

export function lineOfRig(rig: Rig): RigLine {
  return {
    baud: rig.frameLink?.baud ?? CONSOLE_BAUD,
    framePeriodS: 1 / rig.frameRateHz,
    settingsId: settingsIdOf(rig),
    isFramesOnly: rig.frameLink !== undefined,
  };
}

/**
 * The id of the program that `tautline bundle` makes for a rig; takes a second.
 * @returns undefined where no program can be made yet
 */
export async function programIdOfRig(rig: Rig): Promise<number | undefined> {
  if (!rig.settings || bundleProblem(rig.board)) return undefined;
  const { makeProgram } = await import('../bundle/make-program.ts');
  return programIdOf((await makeProgram(planOfRig(rig))).text);
}
