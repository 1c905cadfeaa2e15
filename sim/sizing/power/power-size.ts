import type { Rig } from '../../rig/rig.ts';
import type { Margin } from '../margin.ts';
import { faradWords } from '../value-words.ts';
import { type BrakePlan, brakePlanOf } from './brake-plan.ts';
import { type BrownOut, brownOutOf } from './brown-out.ts';
import { CELL_CARE, CELL_CAUTIONS, chargeMA } from './cell-care.ts';
import { extrasMA, potentiometersMA } from './power.ts';
import { type ModePower, powerModes } from './power-modes.ts';

/** Cell that times are told for where the rig names none, mAh. */
const USUAL_MAH = 500;

export interface PowerSize {
  cell: {
    capacityMAh: number;
    /** Most current, A: the rig's figure, or one hour's capacity an hour (1C). */
    maxA: number;
    /** Whether the rig names it; else it is an example. */
    isStated: boolean;
  };
  potentiometersMA: number;
  railMA: number;
  joystickMA: number;
  modes: ModePower[];
  charge: { most: number; kinder: number } & typeof CELL_CARE;
  brownOut: BrownOut;
  brakes: BrakePlan | null;
  cautions: readonly string[];
  margins: Margin[];
}

/** Sizes what feeds the board. */
export function sizePower(rig: Rig): PowerSize {
  const capacityMAh = rig.cell?.capacityMAh ?? USUAL_MAH;
  const maxA = rig.cell?.maxA ?? capacityMAh / 1000;
  const modes = powerModes(rig, capacityMAh);
  const brownOut = brownOutOf(rig);
  const brakes = brakePlanOf(rig, maxA);
  const size: PowerSize = {
    cell: { capacityMAh, maxA, isStated: rig.cell !== undefined },
    potentiometersMA: potentiometersMA(rig),
    ...extrasMA(rig),
    modes,
    charge: { ...chargeMA(capacityMAh), ...CELL_CARE },
    brownOut,
    brakes,
    cautions: CELL_CAUTIONS,
    margins: [],
  };
  size.margins = [...marginsOf(size), ...(brakes?.margins ?? [])];
  return size;
}

function marginsOf({ cell, modes, brownOut }: PowerSize): Margin[] {
  const about = { group: 'power', fingers: [], isSoft: false } as const;
  const peakMA = Math.max(...modes.map(({ loadMA }) => loadMA));
  const margins: Margin[] = [
    {
      ...about,
      fingers: [],
      what: 'supply while the radio starts, with a good regulator',
      ratio: brownOut.goodV / brownOut.detectorV,
      seen: `${brownOut.goodV.toFixed(2)} V`,
      allowed: `at least ${brownOut.detectorV} V, where the board restarts`,
      cure: `a supply that holds its voltage, and ${faradWords(brownOut.capacitorF)} or more beside the board`,
    },
  ];
  if (cell.isStated) {
    margins.push({
      ...about,
      fingers: [],
      what: 'current from the cell while Wi-Fi sends',
      ratio: (1000 * cell.maxA) / peakMA,
      seen: `${peakMA.toFixed(0)} mA`,
      allowed: `at most ${(1000 * cell.maxA).toFixed(0)} mA`,
      cure: 'a larger cell, or one that its maker allows more current',
    });
  }
  return margins;
}
