import type { Finger } from '../../rig/rig.ts';
import { clashCure } from './clash-cure.ts';
import { GRADES, type Grade, type PreloadLimit, preloadLimits } from './preload-limits.ts';

/** A stretch of preload, as torque with the finger open and as turns of a spring that starts at none. */
export interface Stretch {
  fromMNm: number;
  toMNm: number;
  /** null for a spring whose torque does not grow: its turns say nothing. */
  fromTurns: number | null;
  toTurns: number | null;
}

/** The two limits that leave nothing between them, and what would. */
export interface Clash {
  least: PreloadLimit;
  most: PreloadLimit;
  cure: string;
}

export interface PreloadRange {
  nowMNm: number;
  nowTurns: number | null;
  limits: PreloadLimit[];
  /** Where it works: comes back, stays taut, pulls less than is refused. Or why there is no such preload. */
  works: Stretch | Clash;
  /** Where the closed finger does not tire as well. */
  comfortable: Stretch | Clash;
  /** Where the open string is held well besides. */
  steady: Stretch | Clash;
}

/** @param strokeMm of the largest hand */
export function preloadRange(finger: Finger, strokeMm: number): PreloadRange {
  const { openTorqueMNm, perTurnMNm } = finger.spring;
  const limits = preloadLimits(finger, strokeMm);
  return {
    nowMNm: openTorqueMNm,
    nowTurns: turnsOf(openTorqueMNm, perTurnMNm),
    limits,
    works: stretchOf(finger, strokeMm, limits, 'works'),
    comfortable: stretchOf(finger, strokeMm, limits, 'comfortable'),
    steady: stretchOf(finger, strokeMm, limits, 'steady'),
  };
}

export function isClash(stretch: Stretch | Clash): stretch is Clash {
  return 'cure' in stretch;
}

/** Highest lower and lowest upper bound of all limits up to a grade. */
export function tightestPair(
  limits: readonly PreloadLimit[],
  upTo: Grade,
): { least: PreloadLimit; most: PreloadLimit } {
  const counted = limits.filter((limit) => GRADES.indexOf(limit.grade) <= GRADES.indexOf(upTo));
  const least = counted.filter((l) => l.isLeast).sort((a, b) => b.openTorqueMNm - a.openTorqueMNm)[0]!;
  const most = counted.filter((l) => !l.isLeast).sort((a, b) => a.openTorqueMNm - b.openTorqueMNm)[0]!;
  return { least, most };
}

function stretchOf(
  finger: Finger,
  strokeMm: number,
  limits: readonly PreloadLimit[],
  upTo: Grade,
): Stretch | Clash {
  const { least, most } = tightestPair(limits, upTo);
  if (least.openTorqueMNm > most.openTorqueMNm) {
    const gap = (changed: Finger): number => {
      const pair = tightestPair(preloadLimits(changed, strokeMm), upTo);
      return pair.most.openTorqueMNm - pair.least.openTorqueMNm;
    };
    return { least, most, cure: clashCure(finger, gap) };
  }
  const { perTurnMNm } = finger.spring;
  return {
    fromMNm: least.openTorqueMNm,
    toMNm: most.openTorqueMNm,
    fromTurns: turnsOf(least.openTorqueMNm, perTurnMNm),
    toTurns: turnsOf(most.openTorqueMNm, perTurnMNm),
  };
}

function turnsOf(torqueMNm: number, perTurnMNm: number): number | null {
  return perTurnMNm > 0 ? torqueMNm / perTurnMNm : null;
}
