import type { FingerName } from '../rig/rig.ts';

/** What can be wrong with a build. FIDELITY.md tells what each models and what not. */
export const FAULT_KINDS = [
  'openWiper',
  'missingLeg',
  'frozen',
  'dirtyWiper',
  'deadEnd',
  'saturated',
  'legResistance',
  'pullUp',
  'samePin',
  'crosstalk',
  'hum',
  'supplySag',
  'radioDips',
  'oddCodes',
  'spikes',
  'slackString',
  'slippingString',
  'endStop',
  'friction',
  'zeroDrift',
  'reversed',
  'swapped',
  'rangeChanged',
  'twoLevels',
] as const;
export type FaultKind = (typeof FAULT_KINDS)[number];

/** Kinds that belong to the whole hand; the others to a finger. */
export const WHOLE_HAND_FAULTS: readonly FaultKind[] = ['hum', 'supplySag', 'radioDips', 'rangeChanged'];

export interface Fault {
  kind: FaultKind;
  /** Left out: the whole hand. */
  finger?: FingerName;
  /** 0 = none, 0.25 mild, 0.5 clear, 1 gross. */
  strength: number;
  /** When it begins and ends, s of device time; always, if left out. */
  fromS?: number;
  toS?: number;
}

/** Strength of a kind for a finger at a moment; 0 = not there. */
export function strengthOf(
  faults: readonly Fault[],
  kind: FaultKind,
  finger: FingerName,
  timeS: number,
): number {
  let strength = 0;
  for (const fault of faults) {
    if (fault.kind !== kind || (fault.finger !== undefined && fault.finger !== finger)) continue;
    if (timeS < (fault.fromS ?? Number.NEGATIVE_INFINITY)) continue;
    if (timeS >= (fault.toS ?? Number.POSITIVE_INFINITY)) continue;
    strength = Math.max(strength, fault.strength);
  }
  return strength;
}
