import { minimumJerk, minimumJerkAcceleration, minimumJerkVelocity } from '../../hand/minimum-jerk.ts';
import type { Finger } from '../../rig/rig.ts';
import { SPOOL_DENSITY_KG_PER_M3, SPOOL_WIDTH_MM, spoolInertiaKgM2 } from '../../spool/force.ts';
import { springTorqueMNm } from '../../spool/spring.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { retractAccelerationMmPerS2, stepSpool } from '../../string/slack.ts';

/** A quick opening, and the fastest that is known: a rapid pinch takes 90 ms (Cole & Abbs 1986), s. */
export const QUICK_OPENING_S = 0.2;
export const FASTEST_OPENING_S = 0.09;

/** Step of the simulated opening, s. */
const STEP_S = 1e-4;
/** How long after the finger the spool is watched, s. */
const WATCH_S = 1;
/** Shorter slack is rounding, mm. */
const LEAST_SLACK_MM = 1e-3;
/** Points over the speeding-up half of the opening. */
const POINTS = 200;

/** A finger that opens by minimum jerk, and what the spool makes of it. */
export interface Opening {
  timeMs: number;
  /** Fastest string. */
  peakMmPerS: number;
  isTaut: boolean;
  /** Most slack, and for how long there is any. */
  slackMm: number;
  slackMs: number;
  /** Whether the spool winds all string in again, at most a second after the finger. */
  comesBack: boolean;
}

/** Acceleration of the winding-in spool with so much string out. */
function windInMmPerS2(finger: Finger, stringMm: number, dragMNm: number): number {
  const { spring, spoolRadiusMm: radiusMm, stringDiameterMm } = finger;
  const turns = spoolTurnDeg(stringMm, radiusMm, stringDiameterMm) / 360;
  return retractAccelerationMmPerS2(
    springTorqueMNm(turns, spring.openTorqueMNm, spring.perTurnMNm, 0, 0),
    spring.hysteresis,
    dragMNm,
    0,
    spoolInertiaKgM2(radiusMm, SPOOL_WIDTH_MM, SPOOL_DENSITY_KG_PER_M3),
    radiusMm,
  );
}

/** Lets a finger open over the whole stroke and follows the string. */
export function simulateOpening(finger: Finger, strokeMm: number, dragMNm: number, timeS: number): Opening {
  const state = { spoolMm: strokeMm, speedMmPerS: 0 };
  let slackMm = 0;
  let slackSteps = 0;
  const steps = Math.ceil((timeS + WATCH_S) / STEP_S);
  for (let i = 1; i <= steps; i++) {
    const stringMm = strokeMm * (1 - minimumJerk((i * STEP_S) / timeS));
    const slack =
      stepSpool(state, stringMm, STEP_S, windInMmPerS2(finger, state.spoolMm, dragMNm)) - stringMm;
    if (slack > LEAST_SLACK_MM) slackSteps += 1;
    if (slack > slackMm) slackMm = slack;
    if (state.spoolMm === 0) break;
  }
  return {
    timeMs: 1000 * timeS,
    peakMmPerS: (minimumJerkVelocity(0.5) * strokeMm) / timeS,
    isTaut: slackSteps === 0,
    slackMm: slackSteps === 0 ? 0 : slackMm,
    slackMs: 1000 * slackSteps * STEP_S,
    comesBack: state.spoolMm === 0,
  };
}

/**
 * Shortest opening in which the string stays taut: at no point does the finger speed up more than the spool can.
 * @returns s; undefined when the spool does not wind in by itself
 */
export function fastestTautS(finger: Finger, strokeMm: number, dragMNm: number): number | undefined {
  let most = 0;
  for (let i = 1; i < POINTS; i++) {
    const tau = (0.5 * i) / POINTS;
    const windIn = windInMmPerS2(finger, strokeMm * (1 - minimumJerk(tau)), dragMNm);
    if (windIn <= 0) return undefined;
    most = Math.max(most, (strokeMm * minimumJerkAcceleration(tau)) / windIn);
  }
  // Speeding up ends half way, but the spool has to turn by itself to the end.
  return windInMmPerS2(finger, 0, dragMNm) > 0 ? Math.sqrt(most) : undefined;
}

/** Least torque with the finger open that keeps the string taut in an opening of this time, mN·m. */
export function leastTautTorqueMNm(finger: Finger, strokeMm: number, dragMNm: number, timeS: number): number {
  const { spring, spoolRadiusMm: radiusMm, stringDiameterMm } = finger;
  const inertia = spoolInertiaKgM2(radiusMm, SPOOL_WIDTH_MM, SPOOL_DENSITY_KG_PER_M3);
  // At the end of the opening only the drag is left to overcome.
  let most = dragMNm / (1 - spring.hysteresis);
  for (let i = 1; i < POINTS; i++) {
    const tau = (0.5 * i) / POINTS;
    const turns = spoolTurnDeg(strokeMm * (1 - minimumJerk(tau)), radiusMm, stringDiameterMm) / 360;
    const speedUp = (strokeMm * minimumJerkAcceleration(tau)) / (timeS * timeS);
    const needed = (1000 * inertia * speedUp) / radiusMm + dragMNm;
    most = Math.max(most, needed / (1 - spring.hysteresis) - spring.perTurnMNm * turns);
  }
  return most;
}
