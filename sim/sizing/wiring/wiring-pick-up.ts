import { nominalEnds } from '../../board/nominal-readings.ts';
import { highestSourceOhm } from '../../pot/highest-source.ts';
import { defaultFinger } from '../../rig/default-rig.ts';
import type { Finger, Rig } from '../../rig/rig.ts';

/** What the wiper's wire picks up, and what one channel leaves in the next. */
export interface PickUp {
  /** Highest source resistance over that of the default wiring, to which the noise presets belong. */
  factor: number;
  /** Slow wander there, sd before smoothing: counts, and % of full closure. */
  wanderCounts: number;
  wanderPct: number;
  /** By how much the finger read before can move this one, % of full closure. */
  neighbourPct: number;
}

/**
 * Pick-up in proportion to the resistance behind the pin, so largest where that is highest and small at both ends:
 * 16-19 counts at mid travel, 1-2 near the stops in ATOVproject/faderpunk#556; the law is computed.
 */
export function pickUpOf(rig: Rig, finger: Finger): PickUp {
  const factor = highestOf(finger) / highestOf(defaultFinger(finger.name, rig.board));
  const ends = nominalEnds(rig, finger);
  const spanCounts = Math.max(1, 4096 * Math.abs(ends.closed - ends.open));
  const wanderCounts = rig.noise.wanderCounts * factor;
  const isDropped = rig.dummyRead === true || rig.multiplexer !== undefined;
  return {
    factor,
    wanderCounts,
    wanderPct: (100 * wanderCounts) / spanCounts,
    neighbourPct: isDropped ? 0 : 100 * rig.noise.residue,
  };
}

function highestOf({ potentiometer, wiring }: Finger): number {
  return highestSourceOhm(potentiometer.resistanceOhm, wiring.topOhm, wiring.bottomOhm, wiring.pullDownOhm);
}
