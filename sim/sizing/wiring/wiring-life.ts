import { burstRatePerS, wearNoiseFactor } from '../../pot/wear.ts';
import type { Potentiometer } from '../../rig/rig.ts';

/** Flexes an hour in slow use, one in 5 s, and in fast use, one a second. Assumed. */
const SLOW_PER_HOUR = 720;
const FAST_PER_HOUR = 3600;

/** How long a potentiometer lasts, and how it wears until then. */
export interface Life {
  usedCycles: number;
  ratedCycles: number;
  /** Hours of use until the rated life: one flex in 5 s, and one a second; 0 = used up. */
  slowHours: number;
  fastHours: number;
  /** Factor on the noise and bursts of bad contact a minute that a simulation takes: now and at the rated life. */
  noiseFactors: [now: number, rated: number];
  burstsPerMinute: [now: number, rated: number];
}

export function lifeOf({ usedCycles, ratedCycles }: Potentiometer): Life {
  const left = Math.max(0, ratedCycles - usedCycles);
  const bursts = (cycles: number) => 60 * burstRatePerS(cycles, ratedCycles);
  return {
    usedCycles,
    ratedCycles,
    slowHours: left / SLOW_PER_HOUR,
    fastHours: left / FAST_PER_HOUR,
    noiseFactors: [wearNoiseFactor(usedCycles, ratedCycles), wearNoiseFactor(ratedCycles, ratedCycles)],
    burstsPerMinute: [bursts(usedCycles), bursts(ratedCycles)],
  };
}
