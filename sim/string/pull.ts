import type { Finger } from '../rig/rig.ts';
import { stringTensionN } from '../spool/force.ts';
import { springTorqueMNm } from '../spool/spring.ts';
import { spoolTurnDeg } from '../spool/winding.ts';
import { fingertipTensionN, frictionExponent } from './capstan.ts';

/**
 * Largest pull of the string at the fingertip over the stroke: closing, with the spring wound furthest, against the
 * potentiometer's drag and the guides' friction.
 * @param strokeMm string out at full closure
 * @returns N
 */
export function largestPullN(finger: Finger, strokeMm: number): number {
  const { spoolRadiusMm, stringDiameterMm, spring, potentiometer } = finger;
  const turns = spoolTurnDeg(strokeMm, spoolRadiusMm, stringDiameterMm) / 360;
  const torqueMNm = springTorqueMNm(turns, spring.openTorqueMNm, spring.perTurnMNm, spring.hysteresis, 1);
  const atSpoolN = stringTensionN(torqueMNm, potentiometer.dragMNm, spoolRadiusMm, 1);
  return fingertipTensionN(atSpoolN, frictionExponent(finger.guides), 1);
}
