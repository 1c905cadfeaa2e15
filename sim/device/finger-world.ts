import { sourceOhm } from '../pot/divider.ts';
import { rcKeep, rcRamp } from '../pot/settling.ts';
import type { Finger, Rig } from '../rig/rig.ts';
import { play } from '../string/play.ts';
import { type SlackState, stepSpool } from '../string/slack.ts';
import { type Channel, createChannel, pinVolts, wiperAt } from '../study/channel.ts';
import type { FingerDraw } from '../study/draw-parts.ts';
import { type Fault, strengthOf } from './faults.ts';
import { liftShare } from './lift.ts';

/** One finger from the joint to the pin, step by step. The models are those of the traces (study/channel.ts). */
export interface FingerWorld {
  finger: Finger;
  parts: FingerDraw;
  /** Moves on by one step. @param closure of the finger at its end */
  step(closure: number, timeS: number, supplyV: number): void;
  /** After the last step: wiper position, voltage at the pin, and whether the wiper has lifted. */
  state: { wiper: number; pinV: number; isLifted: boolean };
}

/** String that slips at a full-strength fault in one fast movement, mm, and the speed that makes it slip, mm/s. */
const SLIP_MM = 6;
const SLIP_SPEED_MM_PER_S = 250;
/** Drift of the zero in a minute at full strength, share of the stroke. */
const DRIFT_A_MINUTE = 0.3;
/** Part of the travel at either end on which the wiper stands on the terminal: a usual stroke begins at 0.12. */
const DEAD_FROM = 0.12;
const DEAD_GROWTH = 0.13;
/** Resistance in a bad leg at full strength, share of the potentiometer's. */
const LEG_SHARE = 1;
/** Pull-up of the chip's pin, ohm (about 47 k measured on a draw-wire board; 45 k in datasheets). */
const PULL_UP_OHM = 47_000;

export function createFingerWorld(
  rig: Rig,
  finger: Finger,
  parts: FingerDraw,
  stepS: number,
  faults: readonly Fault[],
  uniform: () => number,
): FingerWorld {
  const built = faultyFinger(finger, faults);
  const channel: Channel = createChannel(built, parts);
  const { potOhm, topOhm, bottomOhm, capacitorF } = parts;
  const { pullDownOhm } = finger.wiring;
  const spool: SlackState = { spoolMm: 0, speedMmPerS: 0 };
  const state = { wiper: wiperAt(channel, 0), pinV: 0, isLifted: false };
  const at = (kind: Fault['kind'], timeS: number) => strengthOf(faults, kind, finger.name, timeS);
  let played = 0;
  let slippedMm = 0;
  let lastMm = 0;
  let inputV = pinVolts(channel, state.wiper, rig.supply.volts);
  let liftLeftS = 0;
  let flipLeftS = 0;
  let isFlipped = false;
  state.pinV = inputV;

  function stringMm(closure: number, timeS: number): number {
    let mm = closure * parts.fullMm;
    mm += at('zeroDrift', timeS) * DRIFT_A_MINUTE * parts.fullMm * (timeS / 60);
    const slip = at('slippingString', timeS);
    if (slip > 0 && Math.abs(mm - lastMm) / stepS > SLIP_SPEED_MM_PER_S) {
      slippedMm += (slip * SLIP_MM * stepS * Math.abs(mm - lastMm)) / stepS / parts.fullMm;
    }
    lastMm = mm;
    return Math.max(0, mm - slippedMm);
  }

  /** Voltage of the wiper with all that is wrong in the wiring. */
  function wiperVolts(x: number, supplyV: number, timeS: number): number {
    const missing = at('missingLeg', timeS);
    // Without its ground leg a potentiometer is a resistor to the supply: only the pull-down draws it from there.
    if (missing > 0) {
      const toSupply = topOhm + (1 - x) * potOhm;
      return pullDownOhm > 0 ? (supplyV * pullDownOhm) / (pullDownOhm + toSupply) : supplyV;
    }
    const leg = at('legResistance', timeS) * LEG_SHARE * potOhm;
    let volts =
      leg === 0
        ? pinVolts(channel, x, supplyV)
        : pinVolts({ ...channel, parts: { ...parts, bottomOhm: bottomOhm + leg } }, x, supplyV);
    const pullUp = at('pullUp', timeS);
    if (pullUp > 0) {
      const source = sourceOhm(x, potOhm, topOhm, bottomOhm, pullDownOhm);
      const upOhm = PULL_UP_OHM / pullUp;
      volts = (volts * upOhm + 3.3 * source) / (upOhm + source);
    }
    const saturated = at('saturated', timeS);
    return saturated > 0 ? volts * (1.6 + 1.2 * saturated) : volts;
  }

  return {
    finger,
    parts,
    state,
    step(closure, timeS, supplyV) {
      played = play(played, stringMm(closure, timeS), channel.playHalfMm);
      const hang = at('slackString', timeS);
      const pullsIn = channel.retractMmPerS2 + channel.retractPerMm * spool.spoolMm;
      const out = stepSpool(spool, played, stepS, hang > 0 ? pullsIn * (1 - hang) * 0.02 : pullsIn);
      let x = wiperAt(channel, out);
      const isDead = at('deadEnd', timeS);
      if (isDead > 0) {
        const dead = DEAD_FROM + DEAD_GROWTH * isDead;
        x = Math.min(1, Math.max(0, (x - dead) / (1 - 2 * dead)));
      }
      if (at('reversed', timeS) > 0) x = 1 - x;
      state.wiper = x;

      const open = Math.max(at('openWiper', timeS), liftShare(at('dirtyWiper', timeS), x));
      if (liftLeftS > 0) liftLeftS -= stepS;
      // Spells of 5 to 80 ms; at full strength a third of the time.
      else if (open > 0 && uniform() < open * stepS * 10) liftLeftS = 0.005 + 0.075 * uniform();
      state.isLifted = liftLeftS > 0;

      const flips = at('twoLevels', timeS);
      if (flips > 0) {
        flipLeftS -= stepS;
        if (flipLeftS <= 0) {
          isFlipped = !isFlipped;
          flipLeftS = 0.2 + 2 * uniform();
        }
      }
      const nextV = flips > 0 ? (isFlipped ? 0.9966 : 2.8413) : wiperVolts(x, supplyV, timeS);
      if (state.isLifted && flips === 0) {
        // An open pin falls through the resistor to ground, or keeps its charge.
        state.pinV *= pullDownOhm > 0 ? rcKeep(stepS, pullDownOhm * capacitorF) : 1;
        inputV = state.pinV;
        return;
      }
      const tauS = sourceOhm(x, potOhm, topOhm, bottomOhm, pullDownOhm) * capacitorF;
      state.pinV = rcRamp(state.pinV, inputV, nextV, rcKeep(stepS, tauS), stepS / tauS);
      if (!(tauS > 0)) state.pinV = nextV;
      inputV = nextV;
    },
  };
}

/** Faults of the mechanics: built in, so they are there from the start or never. */
function faultyFinger(finger: Finger, faults: readonly Fault[]): Finger {
  const friction = strengthOf(faults, 'friction', finger.name, 0);
  const stop = strengthOf(faults, 'endStop', finger.name, 0);
  if (friction === 0 && stop === 0) return finger;
  return {
    ...finger,
    playMm: finger.playMm + friction * 4,
    // So small a spool that the stroke is up to half as long again as the travel.
    spoolRadiusMm: finger.spoolRadiusMm / (1 + stop * 0.8),
  };
}
