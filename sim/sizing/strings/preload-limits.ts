import { DRAG_SPREAD } from '../../pot/drag.ts';
import type { Finger } from '../../rig/rig.ts';
import {
  inertiaTorqueMNm,
  LEAST_PULL_N,
  MOST_PULL_N,
  SPOOL_DENSITY_KG_PER_M3,
  SPOOL_WIDTH_MM,
  spoolInertiaKgM2,
  TIRING_PULL_N,
} from '../../spool/force.ts';
import { MOST_STRIP_STRESS_MPA, turnsInBarrel } from '../../spool/spring.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { capstanRatio, frictionExponent } from '../../string/capstan.ts';
import { leastTautTorqueMNm, QUICK_OPENING_S } from './opening.ts';

/** From what must be to what would be good. */
export const GRADES = ['works', 'comfortable', 'steady'] as const;
export type Grade = (typeof GRADES)[number];

/** What bounds the preload of a spring. */
export interface PreloadLimit {
  id: 'return' | 'taut' | 'held' | 'tiring' | 'refused' | 'stress' | 'barrel';
  isLeast: boolean;
  /** What is lost beyond it: the build does not work, is not comfortable, or lets the open string hang loosely. */
  grade: Grade;
  /** Torque with the finger open at which the limit is met, mN·m. */
  openTorqueMNm: number;
  /** In words that end a sentence, e.g. `pull at the fingertip tires above 0.75 N`. */
  words: string;
}

/** Torque that the spool's inertia asks for in a quick opening over the stroke, mN·m. */
export function openingInertiaMNm(finger: Finger, strokeMm: number): number {
  const radiusMm = finger.spoolRadiusMm;
  const inertia = spoolInertiaKgM2(radiusMm, SPOOL_WIDTH_MM, SPOOL_DENSITY_KG_PER_M3);
  return inertiaTorqueMNm(inertia, strokeMm, radiusMm, QUICK_OPENING_S);
}

/** Everything that bounds the torque with the finger open; what a stiff potentiometer does is in the lower bounds. */
export function preloadLimits(finger: Finger, strokeMm: number): PreloadLimit[] {
  const { spring, spoolRadiusMm: radiusMm, potentiometer: pot } = finger;
  const stiffMNm = pot.dragMNm * DRAG_SPREAD;
  const ratio = capstanRatio(frictionExponent(finger.guides), 1);
  const turns = spoolTurnDeg(strokeMm, radiusMm, finger.stringDiameterMm) / 360;
  const riseMNm = spring.perTurnMNm * turns;
  const winding = 1 - spring.hysteresis;
  /** The pulls of `largestPullN` and of the open finger, turned round. */
  const mostFor = (pullN: number) =>
    ((pullN * radiusMm) / ratio - pot.dragMNm) / (1 + spring.hysteresis) - riseMNm;
  const limits: PreloadLimit[] = [
    least('return', (1.5 * stiffMNm + openingInertiaMNm(finger, strokeMm)) / winding, {
      words: 'it must turn a stiff potentiometer back, with half as much again to spare',
    }),
    least('taut', leastTautTorqueMNm(finger, strokeMm, stiffMNm, QUICK_OPENING_S), {
      words: `the string must stay taut when the hand opens in ${1000 * QUICK_OPENING_S} ms`,
    }),
    least('held', (LEAST_PULL_N * radiusMm * ratio + stiffMNm) / winding, {
      grade: 'steady',
      words: `the open finger should keep a pull of ${LEAST_PULL_N} N`,
    }),
    most('tiring', mostFor(TIRING_PULL_N), {
      grade: 'comfortable',
      words: `a pull above ${TIRING_PULL_N} N at the closed finger tires`,
    }),
    most('refused', mostFor(MOST_PULL_N), {
      words: `a pull above ${MOST_PULL_N} N at the closed finger is too strong`,
    }),
  ];
  if (spring.strip) {
    const { widthMm, thicknessMm, lengthMm, barrel } = spring.strip;
    const highestMNm = (MOST_STRIP_STRESS_MPA * widthMm * thicknessMm ** 2) / 6;
    limits.push(
      most('stress', highestMNm - riseMNm, {
        words: `the strip should not be bent beyond ${MOST_STRIP_STRESS_MPA} MPa`,
      }),
    );
    if (barrel) {
      const turnsThere = turnsInBarrel(barrel.radiusMm, barrel.arborRadiusMm, thicknessMm, lengthMm);
      limits.push(
        most('barrel', (turnsThere - turns) * spring.perTurnMNm, {
          words: `the strip has ${turnsThere.toFixed(1)} turns in its barrel`,
        }),
      );
    }
  }
  return limits;
}

interface Words {
  grade?: Grade;
  words: string;
}

function least(
  id: PreloadLimit['id'],
  openTorqueMNm: number,
  { grade = 'works', words }: Words,
): PreloadLimit {
  return { id, isLeast: true, grade, openTorqueMNm, words };
}

function most(
  id: PreloadLimit['id'],
  openTorqueMNm: number,
  { grade = 'works', words }: Words,
): PreloadLimit {
  return { id, isLeast: false, grade, openTorqueMNm, words };
}
