import { boardFacts } from '../../../firmware/boards/boards.ts';
import type { Rig } from '../../rig/rig.ts';
import { cornerVolts, type Divider, dividerOnSupply, nominalSpanV } from './corners.ts';
import { proposeResistors, type ResistorPair } from './resistors.ts';
import { E12, E24 } from './series.ts';

/** Series of resistors that shops keep, with their usual tolerance. */
const SERIES = [
  { name: 'E12', values: E12, tolerance: 0.05 },
  { name: 'E24', values: E24, tolerance: 0.05 },
  { name: 'E24', values: E24, tolerance: 0.01 },
] as const;

export interface SeriesProposal {
  series: 'E12' | 'E24';
  tolerance: number;
  /** null = no pair of this series keeps every corner inside the range. */
  pair: ResistorPair | null;
}

/** What to solder beside the potentiometers of these fingers, against what is planned. */
export interface ResistorProposals {
  fingers: string[];
  potOhm: number;
  potTolerance: number;
  pullDownOhm: number;
  /** The pair of the rig file, with the supply anywhere in its tolerance. */
  now: ResistorPair & { tolerance: number };
  series: SeriesProposal[];
}

/** Proposals for each wiring that differs. With a pull-down an open wiper is to stay visible. */
export function resistorProposals(rig: Rig): ResistorProposals[] {
  const [low, high] = boardFacts(rig.board).adcRangeMv;
  const rangeV = [low / 1000, high / 1000] as const;
  const found = new Map<string, ResistorProposals>();
  for (const finger of rig.fingers) {
    const divider: Divider = dividerOnSupply(rig, finger);
    const key = JSON.stringify(divider);
    const same = found.get(key);
    if (same) same.fingers.push(finger.name);
    else found.set(key, { fingers: [finger.name], ...proposalsFor(divider, rangeV) });
  }
  return [...found.values()];
}

function proposalsFor(
  divider: Divider,
  rangeV: readonly [number, number],
): Omit<ResistorProposals, 'fingers'> {
  const { potOhm, potTolerance, pullDownOhm, topOhm, bottomOhm, seriesTolerance } = divider;
  return {
    potOhm,
    potTolerance,
    pullDownOhm,
    now: {
      topOhm,
      bottomOhm,
      tolerance: seriesTolerance,
      ...cornerVolts(divider),
      spanV: nominalSpanV(divider),
    },
    series: SERIES.map(({ name, values, tolerance }) => ({
      series: name,
      tolerance,
      pair:
        proposeResistors({ ...divider, seriesTolerance: tolerance }, rangeV, values, pullDownOhm > 0) ?? null,
    })),
  };
}
