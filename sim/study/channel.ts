import { dividerVolts, sourceOhm } from '../pot/divider.ts';
import { bowed } from '../pot/linearity.ts';
import { rcKeep, rcRamp } from '../pot/settling.ts';
import { wiperOfTurn } from '../pot/travel.ts';
import type { Finger } from '../rig/rig.ts';
import { SPOOL_DENSITY_KG_PER_M3, SPOOL_WIDTH_MM, spoolInertiaKgM2 } from '../spool/force.ts';
import { springTorqueMNm } from '../spool/spring.ts';
import { spoolTurnDeg } from '../spool/winding.ts';
import { frictionExponent, lostMotionMm } from '../string/capstan.ts';
import { play } from '../string/play.ts';
import { retractAccelerationMmPerS2, type SlackState, stepSpool } from '../string/slack.ts';
import type { FingerDraw } from './draw-parts.ts';

/** Steps followed at a time: short enough to stay in the processor's cache from one effect to the next. */
const CHUNK_STEPS = 320;
/** Steps after which the source impedance is worked out anew: it changes slowly. */
const IMPEDANCE_STEPS = 8;

/** Everything between the string and the pin of one finger, for one draw of parts. */
export interface Channel {
  /** Half-width of all play between finger and spool, mm: mounting play and half the guides' lost motion. */
  playHalfMm: number;
  /** What the spool winds in with when the string is in, mm/s² ... */
  retractMmPerS2: number;
  /** ... and what is added for each mm of string that is out, as the spring is wound further. */
  retractPerMm: number;
  spoolRadiusMm: number;
  stringDiameterMm: number;
  pullDownOhm: number;
  parts: FingerDraw;
}

/** Puts the models of string, spool, potentiometer and wiring in a row. */
export function createChannel(finger: Finger, parts: FingerDraw): Channel {
  const { spoolRadiusMm, stringDiameterMm, spring, wiring } = finger;
  const exponent = frictionExponent(finger.guides) * parts.frictionFactor;
  const turnsAt = (stringMm: number) => spoolTurnDeg(stringMm, spoolRadiusMm, stringDiameterMm) / 360;
  const torqueAt = (stringMm: number) =>
    springTorqueMNm(turnsAt(stringMm), parts.openTorqueMNm, spring.perTurnMNm, 0, 0);
  // One width of lost motion for the whole stroke: that of its middle.
  const tensionN = torqueAt(parts.fullMm / 2) / spoolRadiusMm;
  const retractAt = (stringMm: number) =>
    retractAccelerationMmPerS2(
      torqueAt(stringMm),
      spring.hysteresis,
      parts.dragMNm,
      0,
      spoolInertiaKgM2(spoolRadiusMm, SPOOL_WIDTH_MM, SPOOL_DENSITY_KG_PER_M3),
      spoolRadiusMm,
    );
  return {
    playHalfMm: finger.playMm + lostMotionMm(tensionN, exponent, finger.anchorNPerMm) / 2,
    retractMmPerS2: retractAt(0),
    retractPerMm: (retractAt(parts.fullMm) - retractAt(0)) / parts.fullMm,
    spoolRadiusMm,
    stringDiameterMm,
    pullDownOhm: wiring.pullDownOhm,
    parts,
  };
}

/** Wiper position, 0-1, when so much string is out. */
export function wiperAt(channel: Channel, stringMm: number): number {
  const { startDeg, electricalTravelDeg, mechanicalTravelDeg, bow, sBend } = channel.parts;
  const turnDeg = spoolTurnDeg(stringMm, channel.spoolRadiusMm, channel.stringDiameterMm);
  return bowed(wiperOfTurn(turnDeg, startDeg, electricalTravelDeg, mechanicalTravelDeg), bow, sBend);
}

/** Settled voltage at the pin for a wiper position. */
export function pinVolts(channel: Channel, wiper: number, supplyV: number): number {
  const { potOhm, topOhm, bottomOhm } = channel.parts;
  return dividerVolts(wiper, supplyV, potOhm, topOhm, bottomOhm, channel.pullDownOhm);
}

/**
 * Follows a movement from the finger to the pin.
 * @param string string that the finger asks for at each step, mm; overwritten with the wiper position
 * @param supply supply voltage at each step, V
 * @param volts filled: voltage at the pin, V
 */
export function follow(
  channel: Channel,
  string: Float64Array,
  supply: Float64Array,
  stepS: number,
  volts: Float64Array,
): void {
  const spool: SlackState = { spoolMm: string[0], speedMmPerS: 0 };
  let played = string[0];
  let inputV = pinVolts(channel, wiperAt(channel, played), supply[0]);
  let pinV = inputV;
  for (let from = 0; from < string.length; from += CHUNK_STEPS) {
    const to = Math.min(string.length, from + CHUNK_STEPS);
    played = followPlay(channel.playHalfMm, played, string, from, to);
    followSpool(spool, channel.retractMmPerS2, channel.retractPerMm, stepS, string, from, to);
    followWiper(channel, string, supply, volts, from, to);
    const lastV = volts[to - 1];
    pinV = followCapacitor(channel, string, stepS, inputV, pinV, volts, from, to);
    inputV = lastV;
  }
}

// One effect a loop, each in a function of its own: that is what JavaScript engines compile best.

function followPlay(half: number, before: number, string: Float64Array, from: number, to: number): number {
  let played = before;
  for (let i = from; i < to; i++) {
    played = play(played, string[i], half);
    string[i] = played;
  }
  return played;
}

function followSpool(
  spool: SlackState,
  retractMmPerS2: number,
  retractPerMm: number,
  stepS: number,
  string: Float64Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) {
    string[i] = stepSpool(spool, string[i], stepS, retractMmPerS2 + retractPerMm * spool.spoolMm);
  }
}

function followWiper(
  channel: Channel,
  string: Float64Array,
  supply: Float64Array,
  volts: Float64Array,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) {
    const x = wiperAt(channel, string[i]);
    string[i] = x;
    volts[i] = pinVolts(channel, x, supply[i]);
  }
}

/** @returns voltage at the pin after the last step */
function followCapacitor(
  channel: Channel,
  wiper: Float64Array,
  stepS: number,
  inputBeforeV: number,
  pinBeforeV: number,
  volts: Float64Array,
  from: number,
  to: number,
): number {
  const { potOhm, topOhm, bottomOhm, capacitorF } = channel.parts;
  let inputV = inputBeforeV;
  let pinV = pinBeforeV;
  let keep = 0;
  let steps = 0;
  for (let i = from; i < to; i++) {
    if (i % IMPEDANCE_STEPS === 0) {
      const tauS = sourceOhm(wiper[i], potOhm, topOhm, bottomOhm, channel.pullDownOhm) * capacitorF;
      keep = rcKeep(stepS, tauS);
      steps = stepS / tauS;
    }
    const nextV = volts[i];
    pinV = rcRamp(pinV, inputV, nextV, keep, steps);
    inputV = nextV;
    volts[i] = pinV;
  }
  return pinV;
}
