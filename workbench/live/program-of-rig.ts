import { bundleProblem } from '../../firmware/boards/bundle-problem.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import { programIdOf } from '../bundle/ids.ts';
import { planOfRig } from '../bundle/plan-of-rig.ts';

/**
 * The id of the program that `tautline bundle` makes for a rig; takes a second.
 * @returns undefined where no program can be made yet
 */
export async function programIdOfRig(rig: Rig): Promise<number | undefined> {
  if (!rig.settings || bundleProblem(rig.board)) return undefined;
  const { makeProgram } = await import('../bundle/make-program.ts');
  return programIdOf((await makeProgram(planOfRig(rig))).text);
}
