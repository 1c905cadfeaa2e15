import type { Finger, Strip } from '../../sim/rig/rig.ts';
import { stripTorqueMNm } from '../../sim/spool/spring.ts';
import type { FingerBlock } from './finger-schema.ts';
import { springFromPulls } from './spring-pulls.ts';

type SpringBlock = FingerBlock['spring'];

/** Preload where a rig names a strip but no turns; refused by the check, so this only keeps the numbers finite. */
const NO_PRELOAD_TURNS = 1;

/** The springs of `eachFinger` and of a finger laid over the finger's own, in this order. */
export function layerSprings(
  finger: Finger,
  each: SpringBlock,
  own: SpringBlock,
  statedDragMNm: number | undefined,
): void {
  layerSpring(finger, each, undefined, statedDragMNm);
  layerSpring(finger, own, each, statedDragMNm);
}

/**
 * Lays what one block says over the spring and the drag so far.
 *
 * Pulls measured at the spool contain the potentiometer's drag. So that no friction counts twice, a drag that
 * nobody stated is taken as 0 beside measured pulls, and a stated one is taken out of the measured friction.
 * @param below the block under this one: a finger may change the preload alone
 */
function layerSpring(
  finger: Finger,
  block: SpringBlock,
  below: SpringBlock,
  statedDragMNm: number | undefined,
): void {
  const { spring, potentiometer } = finger;
  if (block?.pulls !== undefined) {
    const measured = springFromPulls(block.pulls, finger.spoolRadiusMm);
    const dragMNm = statedDragMNm ?? 0;
    spring.openTorqueMNm = measured.openTorqueMNm;
    spring.perTurnMNm = measured.perTurnMNm;
    spring.hysteresis = Math.max(0, measured.frictionShare - dragMNm / measured.openTorqueMNm);
    potentiometer.dragMNm = dragMNm;
    delete spring.strip;
  }
  const strip = block?.strip ?? (block?.preload === undefined ? undefined : below?.strip);
  if (strip) {
    spring.perTurnMNm = torquePerTurnMNm(strip);
    spring.openTorqueMNm = spring.perTurnMNm * (block?.preload ?? below?.preload ?? NO_PRELOAD_TURNS);
    spring.strip = structuredClone(strip);
  }
  if (block?.perTurn !== undefined) delete spring.strip;
  spring.openTorqueMNm = block?.openTorque ?? spring.openTorqueMNm;
  spring.perTurnMNm = block?.perTurn ?? spring.perTurnMNm;
  spring.hysteresis = block?.hysteresis ?? spring.hysteresis;
}

function torquePerTurnMNm(strip: Strip): number {
  return stripTorqueMNm(strip.modulusGPa, strip.widthMm, strip.thicknessMm, strip.lengthMm, 2 * Math.PI);
}
