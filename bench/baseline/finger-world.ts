import { countsAt } from '../../sim/adc/curve.ts';
import { sagFactor } from '../../sim/adc/noise.ts';
import { FULL_FLEXION_DEG } from '../../sim/hand/closure.ts';
import { tremorDeg } from '../../sim/hand/tremor.ts';
import { sourceOhm } from '../../sim/pot/divider.ts';
import { rcKeep, rcRamp } from '../../sim/pot/settling.ts';
import { play } from '../../sim/string/play.ts';
import { type SlackState, stepSpool } from '../../sim/string/slack.ts';
import { pinVolts, wiperAt } from '../../sim/study/channel.ts';
import { closureAt } from '../../sim/study/motion.ts';
import type { Scenario } from './scenario.ts';

/** Peak of the tremor at the base joint, deg; as in the product's traces. */
const TREMOR_DEG = 0.05;

/** What one world step leaves behind. */
export interface WorldSample {
  closure: number;
  wiper: number;
  /** Noise-free counts. */
  counts: number;
}

/** A finger, its string and its potentiometer, moved step by step. */
export class FingerWorld {
  #scenario: Scenario;
  #stepS: number;
  #spool: SlackState | undefined;
  #playedMm = 0;
  #inputV = 0;
  #pinV = 0;

  constructor(scenario: Scenario, stepS: number) {
    this.#scenario = scenario;
    this.#stepS = stepS;
  }

  /** @param timeS time of the step; steps must follow each other */
  update(timeS: number): WorldSample {
    const { rig, hand, parts, channel, motion, curve, periodS } = this.#scenario;
    const closure = closureAt(motion, timeS);
    const tremor = tremorDeg(timeS, TREMOR_DEG, parts.tremorHz, parts.tremorPhaseRad);
    const askedMm = (closure + tremor / FULL_FLEXION_DEG[0]) * parts.fullMm;
    // The supply is the same all through a frame.
    const frameS = Math.ceil(timeS / periodS - 1e-6) * periodS;
    const supplyV = hand.supplyV * sagFactor(rig.supply.sag, hand.sagPhaseRad, frameS);
    if (!this.#spool) {
      this.#spool = { spoolMm: askedMm, speedMmPerS: 0 };
      this.#playedMm = askedMm;
      this.#inputV = pinVolts(channel, wiperAt(channel, askedMm), supplyV);
      this.#pinV = this.#inputV;
    }
    this.#playedMm = play(this.#playedMm, askedMm, channel.playHalfMm);
    const retract = channel.retractMmPerS2 + channel.retractPerMm * this.#spool.spoolMm;
    const stringMm = stepSpool(this.#spool, this.#playedMm, this.#stepS, retract);
    const wiper = wiperAt(channel, stringMm);
    const inputV = pinVolts(channel, wiper, supplyV);
    const ohm = sourceOhm(wiper, parts.potOhm, parts.topOhm, parts.bottomOhm, channel.pullDownOhm);
    const tauS = ohm * parts.capacitorF;
    this.#pinV = rcRamp(this.#pinV, this.#inputV, inputV, rcKeep(this.#stepS, tauS), this.#stepS / tauS);
    this.#inputV = inputV;
    return { closure, wiper, counts: countsAt(curve, this.#pinV) };
  }
}
