import { bendOfLinearity } from '../pot/linearity.ts';
import { type PartValues, partValues, toleranced } from '../pot/tolerance.ts';
import { centredStartDeg } from '../pot/travel.ts';
import type { Finger, Rig } from '../rig/rig.ts';
import { keys, uniformAt } from '../seed/mix.ts';
import { spoolTurnDeg } from '../spool/winding.ts';
import { fullExcursionMm } from '../string/excursion.ts';

/** Streams of random numbers of one finger in one draw. */
export const STREAM = {
  noise: 0,
  parts: 1,
  motion: 2,
  spikes: 3,
  odd: 4,
  wander: 5,
  bursts: 6,
  jitter: 7,
  pickUp: 8,
} as const;

/** Number of the scenario that one finger (0-4) of one draw is; 7 stands for the hand as a whole. */
export function scenarioOf(draw: number, finger: number): number {
  return draw * 8 + finger;
}
const WHOLE_HAND = 7;

// Spreads that the rig file does not ask for; all assumed.
const ARM_SPREAD = 0.05;
const FRICTION_SPREAD = 0.3;
const SPRING_SPREAD = 0.1;
const DRAG_SPREAD = 0.3;
const CAPACITOR_SPREAD = 0.1;
const NOISE_SPREAD = 0.25;
/** By which a potentiometer may be mounted off the middle of its travel, deg. */
export const MOUNTING_DEG = 5;
/** Of the reference voltage between chips: 1000-1200 mV about 1100 (Espressif's ADC documentation). */
export const REFERENCE_SPREAD = 100 / 1100;
/** Mains frequency tolerance, 0.5 %: common practice in synchronous grids is tighter. */
const MAINS_SPREAD = 0.005;

/** What all fingers of one draw share. */
export interface HandDraw {
  supplyV: number;
  /** Factor on the ADC's counts from the chip's own reference. */
  adcGain: number;
  humHz: number;
  humPhaseRad: number;
  sagPhaseRad: number;
}

/** The parts of one finger as one draw has them. */
export interface FingerDraw extends PartValues {
  /** String drawn between closure 0 and 1, mm. */
  fullMm: number;
  frictionFactor: number;
  openTorqueMNm: number;
  dragMNm: number;
  capacitorF: number;
  bow: number;
  sBend: number;
  startDeg: number;
  sdCounts: number;
  tremorHz: number;
  tremorPhaseRad: number;
}

/** A source of numbers from −1 to 1 out of one stream, in order. */
export function drawer(scenario: number, seed: number, stream: number): () => number {
  const [k0, k1] = keys(scenario, seed, stream);
  let counter = 0;
  return () => 2 * uniformAt(counter++, k0, k1) - 1;
}

/** Draws what the fingers share. */
export function drawHand(rig: Rig, seed: number, draw: number): HandDraw {
  const next = drawer(scenarioOf(draw, WHOLE_HAND), seed, STREAM.parts);
  return {
    supplyV: toleranced(rig.supply.volts, rig.supply.tolerance, next()),
    adcGain: 1 / toleranced(1, REFERENCE_SPREAD, next()),
    humHz: toleranced(rig.noise.humHz, MAINS_SPREAD, next()),
    humPhaseRad: Math.PI * next(),
    sagPhaseRad: Math.PI * next(),
  };
}

/** Draws the parts of one finger. The order of the draws is part of the seed's meaning: add at the end only. */
export function drawFinger(
  rig: Rig,
  finger: Finger,
  fingerIndex: number,
  seed: number,
  draw: number,
): FingerDraw {
  const next = drawer(scenarioOf(draw, fingerIndex), seed, STREAM.parts);
  const arms = toleranced(1, ARM_SPREAD, next());
  const pot = finger.potentiometer;
  const parts = partValues(pot, finger.wiring, { pot: next(), top: next(), bottom: next(), travel: next() });
  const [bow, sBend] = bendOfLinearity(pot.linearity, next());
  const fullMm = fullExcursionMm(finger, 0) * rig.hand.scale * arms;
  const strokeDeg = spoolTurnDeg(fullMm, finger.spoolRadiusMm, finger.stringDiameterMm);
  return {
    ...parts,
    fullMm,
    frictionFactor: toleranced(1, FRICTION_SPREAD, next()),
    openTorqueMNm: toleranced(finger.spring.openTorqueMNm, SPRING_SPREAD, next()),
    dragMNm: toleranced(pot.dragMNm, DRAG_SPREAD, next()),
    capacitorF: toleranced(finger.wiring.capacitorF, CAPACITOR_SPREAD, next()),
    bow,
    sBend,
    startDeg: centredStartDeg(strokeDeg, parts.mechanicalTravelDeg) + MOUNTING_DEG * next(),
    sdCounts: toleranced(rig.noise.sdCounts, NOISE_SPREAD, next()),
    tremorHz: 9 + 3 * next(),
    tremorPhaseRad: Math.PI * next(),
  };
}

/** The parts of one finger as the rig file names them: no tolerances, a straight potentiometer, the stroke centred. */
export function nominalFinger(rig: Rig, finger: Finger): FingerDraw {
  const pot = finger.potentiometer;
  const parts = partValues(pot, finger.wiring, { pot: 0, top: 0, bottom: 0, travel: 0 });
  const fullMm = fullExcursionMm(finger, 0) * rig.hand.scale;
  const strokeDeg = spoolTurnDeg(fullMm, finger.spoolRadiusMm, finger.stringDiameterMm);
  return {
    ...parts,
    fullMm,
    frictionFactor: 1,
    openTorqueMNm: finger.spring.openTorqueMNm,
    dragMNm: pot.dragMNm,
    capacitorF: finger.wiring.capacitorF,
    bow: 0,
    sBend: 0,
    startDeg: centredStartDeg(strokeDeg, parts.mechanicalTravelDeg),
    sdCounts: rig.noise.sdCounts,
    tremorHz: 9,
    tremorPhaseRad: 0,
  };
}
