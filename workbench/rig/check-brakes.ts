import type { Rig } from '../../sim/rig/rig.ts';
import { lacksOf } from '../../sim/sizing/power/brake-plan.ts';
import type { Findings } from './findings.ts';

/** Says wherever the rig is read that planned brakes could hurt; `size` refuses the plan. */
export function checkBrakes(rig: Rig, findings: Findings): void {
  if (!rig.brakes || findings.isCut(['brakes'])) return;
  const lacks = lacksOf(rig.brakes);
  if (lacks.length === 0) return;
  findings.warn(
    findings.place(['brakes']),
    `brakes: ${lacks.join(', ')}`,
    'a slip clutch of at most 10 N, a hardware cut-off and a supply of their own: people get hurt without',
    'add "clutch", "cutOff: yes" and "supply: own" once the build has them; do not build the plan as it is',
  );
}
