import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { cornerVolts, dividerOf } from './corners.ts';

/** The pin over all corners of the resistors' tolerances, with the supply at its nominal value. */
export function cornerMargins(rig: Rig): Margin[] {
  const [lowMv, highMv] = boardFacts(rig.board).adcRangeMv;
  const [low, high] = [lowMv / 1000, highMv / 1000];
  return rig.fingers.flatMap((finger): Margin[] => {
    const { lowestV, highestV } = cornerVolts(dividerOf(rig, finger));
    const about = { group: 'wiring', fingers: [finger.name], isSoft: false } as const;
    const top: Margin = {
      ...about,
      fingers: [finger.name],
      what: 'highest voltage in any corner of the resistors’ tolerances',
      ratio: high / highestV,
      seen: `${highestV.toFixed(3)} V`,
      allowed: `at most ${high} V`,
      cure: 'a larger resistor at the top',
    };
    if (low === 0) return [top];
    return [
      top,
      {
        ...about,
        fingers: [finger.name],
        what: 'lowest voltage in any corner of the resistors’ tolerances',
        ratio: lowestV / low,
        seen: `${lowestV.toFixed(3)} V`,
        allowed: `at least ${low} V`,
        cure: 'a larger resistor at the bottom',
      },
    ];
  });
}
