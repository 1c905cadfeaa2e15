import { boardFacts } from '../../../firmware/boards/boards.ts';
import { COST_FIGURES, CYCLES_PER_INSTRUCTION } from '../../../firmware/boards/cost-figures.ts';
import { highestSourceAt, highestSourceOhm } from '../../pot/highest-source.ts';
import { samplerStep, settlingTimeConstants } from '../../pot/settling.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { E6, valueBelow } from './series.ts';

/** Bits of a reading. */
const BITS = 12;
/** Sampling capacitor of the converter, F. Assumed; see `samplerStep`. */
const SAMPLER_F = 10e-12;
/** Capacitors that are proposed, pF: 1 nF to 1 µF. Below, the sampler shows; above, they are large. Assumed. */
const LEAST_PF = 1_000;
const MOST_PF = 1_000_000;

/** How a pin follows its wiper. */
export interface Settling {
  /** Highest resistance that the pin sees, ohm, and the wiper position where. */
  sourceOhm: number;
  sourceAt: number;
  tauMs: number;
  /** Time constants until a full step is within half a code, and the same in ms. */
  timeConstants: number;
  settlingMs: number;
  /** -3 dB of the low-pass of source and capacitor, Hz; null without a capacitor. */
  cutoffHz: number | null;
  /** From one reading of the pin to the next in the same burst, ms, and from frame to frame. */
  betweenReadsMs: number;
  frameMs: number;
  /** What the converter's own capacitor takes out of the pin's at a full step, counts. */
  samplerCounts: number;
  /** Largest E6 value with which every potentiometer in tolerance settles in half a frame, F; null = none does. */
  proposedF: number | null;
}

/** Time from one reading to the next, s: the converter's, and the interpreter's for the call. */
export function betweenReadsS(rig: Rig): number {
  const { readUs, clockHz } = boardFacts(rig.board);
  return readUs * 1e-6 + (COST_FIGURES.acquire.instructions * CYCLES_PER_INSTRUCTION) / clockHz;
}

export function settlingOf(rig: Rig, finger: Finger): Settling {
  const { potentiometer: pot, wiring } = finger;
  const { topOhm, bottomOhm, pullDownOhm, capacitorF, seriesTolerance } = wiring;
  const ohm = highestSourceOhm(pot.resistanceOhm, topOhm, bottomOhm, pullDownOhm);
  const worstOhm = highestSourceOhm(
    pot.resistanceOhm * (1 + pot.tolerance),
    topOhm * (1 + seriesTolerance),
    bottomOhm * (1 + seriesTolerance),
    pullDownOhm,
  );
  const timeConstants = settlingTimeConstants(BITS);
  const tauS = ohm * capacitorF;
  const frameS = 1 / rig.frameRateHz;
  const fitsF = frameS / 2 / (timeConstants * worstOhm);
  const picoF = valueBelow(E6, Math.min(MOST_PF, fitsF * 1e12), LEAST_PF);
  return {
    sourceOhm: ohm,
    sourceAt: highestSourceAt(pot.resistanceOhm, topOhm, bottomOhm),
    tauMs: 1000 * tauS,
    timeConstants,
    settlingMs: 1000 * timeConstants * tauS,
    cutoffHz: tauS > 0 ? 1 / (2 * Math.PI * tauS) : null,
    betweenReadsMs: 1000 * betweenReadsS(rig),
    frameMs: 1000 * frameS,
    samplerCounts: 2 ** BITS * samplerStep(SAMPLER_F, capacitorF),
    proposedF: picoF === undefined ? null : picoF / 1e12,
  };
}
