import { dividerVolts, sourceOhm } from '../pot/divider.ts';
import { bowed } from '../pot/linearity.ts';
import { rcKeep, rcRamp } from '../pot/settling.ts';
import { wiperOfTurn } from '../pot/travel.ts';
import type { Finger } from '../rig/rig.ts';
import { spoolInertiaKgM2 } from '../spool/force.ts';
import { spoolTurnDeg } from '../spool/winding.ts';
import { frictionExponent, lostMotionMm } from '../string/capstan.ts';
import { play } from '../string/play.ts';
import { retractAccelerationMmPerS2, type SlackState, stepSpool } from '../string/slack.ts';
import type { FingerDraw } from './draw-parts.ts';
import { STEPS_PER_FRAME } from './trace-types.ts';

/** Printed spool: width and density of solid PLA (material tables); both assumed for every rig. */
const SPOOL_WIDTH_MM = 6;
const SPOOL_DENSITY = 1240;

/** Everything between the string and the pin of one finger, for one draw of parts. */
export interface Channel {
  /** Half-width of all play between finger and spool, mm: mounting play and half the guides' lost motion. */
  playHalfMm: number;
  /** Wiper position, 0-1, when so much string is out. */
  wiper(stringMm: number): number;
  /** Settled voltage at the pin for a wiper position. */
  volts(wiper: number, supplyV: number): number;
  /**
   * Follows a movement from the finger to the pin.
   * @param stringMm string that the finger asks for at each step, mm; overwritten with the wiper position
   * @param supply supply voltage at each step, V
   * @param volts filled: voltage at the pin, V
   */
  follow(stringMm: Float64Array, supply: Float64Array, stepS: number, volts: Float64Array): void;
}

/** Puts the models of string, spool, potentiometer and wiring in a row. */
export function createChannel(finger: Finger, draw: FingerDraw): Channel {
  const { spoolRadiusMm, stringDiameterMm, spring, wiring } = finger;
  const exponent = frictionExponent(finger.guides) * draw.frictionFactor;
  const tensionN = draw.openTorqueMNm / spoolRadiusMm;
  const playHalfMm = finger.playMm + lostMotionMm(tensionN, exponent, finger.anchorNPerMm) / 2;
  const acceleration = retractAccelerationMmPerS2(
    draw.openTorqueMNm,
    spring.hysteresis,
    draw.dragMNm,
    0,
    spoolInertiaKgM2(spoolRadiusMm, SPOOL_WIDTH_MM, SPOOL_DENSITY),
    spoolRadiusMm,
  );

  function wiper(stringMm: number): number {
    const turnDeg = spoolTurnDeg(stringMm, spoolRadiusMm, stringDiameterMm);
    return bowed(
      wiperOfTurn(turnDeg, draw.startDeg, draw.electricalTravelDeg, draw.mechanicalTravelDeg),
      draw.bow,
      draw.sBend,
    );
  }

  function volts(x: number, supplyV: number): number {
    return dividerVolts(x, supplyV, draw.potOhm, draw.topOhm, draw.bottomOhm, wiring.pullDownOhm);
  }

  return {
    playHalfMm,
    wiper,
    volts,
    follow(stringMm, supply, stepS, out) {
      // One effect a loop: short loops are compiled whole, without a call or an allocation in them.
      const count = stringMm.length;
      let played = stringMm[0];
      for (let i = 0; i < count; i++) {
        played = play(played, stringMm[i], playHalfMm);
        stringMm[i] = played;
      }
      const spool: SlackState = { spoolMm: stringMm[0], speedMmPerS: 0 };
      for (let i = 0; i < count; i++) stringMm[i] = stepSpool(spool, stringMm[i], stepS, acceleration);
      for (let i = 0; i < count; i++) stringMm[i] = wiper(stringMm[i]);
      for (let i = 0; i < count; i++) out[i] = volts(stringMm[i], supply[i]);
      let inputV = out[0];
      let pinV = inputV;
      for (let from = 0; from < count; from += STEPS_PER_FRAME) {
        // The source impedance changes slowly: once a frame is enough.
        const { potOhm, topOhm, bottomOhm, capacitorF } = draw;
        const tauS = sourceOhm(stringMm[from], potOhm, topOhm, bottomOhm, wiring.pullDownOhm) * capacitorF;
        const keep = rcKeep(stepS, tauS);
        for (let i = from; i < from + STEPS_PER_FRAME; i++) {
          const nextV = out[i];
          pinV = rcRamp(pinV, inputV, nextV, keep, stepS / tauS);
          inputV = nextV;
          out[i] = pinV;
        }
      }
    },
  };
}
