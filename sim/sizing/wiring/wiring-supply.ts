import { DEFAULT_ATTENUATION_DB } from '../../../firmware/boards/adc-curve.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { buildCurveTable, codeOf, countsAt } from '../../adc/curve.ts';
import { railCompensated } from '../../adc/quantise.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { createChannel, pinVolts, wiperAt } from '../../study/channel.ts';
import { nominalFinger } from '../../study/draw-parts.ts';
import { supplySpread } from './corners.ts';

/** Share of the supply at a rail pin that would be added: two equal resistors. */
const USUAL_RAIL = 0.5;

/** What another supply voltage does to the reading: the chip measures against a reference of its own. */
export interface SupplyEffect {
  /** Lowest supply: tolerance and sag, V, and by how much it is lower, %. */
  lowestV: number;
  changePct: number;
  /** What that does to the reading of the closed hand, % of the reading and counts. */
  readingPct: number;
  counts: number;
  /** The sag alone, which no calibration takes out, % of full closure. */
  sagPct: number;
  /** Largest error that a reading of the rail leaves anywhere in the travel at the lowest supply, % of full scale. */
  withRailPct: number;
  /** What it leaves of the sag, % of full closure. */
  sagWithRailPct: number;
  /** How far closed the closed hand reads at the lowest supply before the first calibration, %. */
  reachPct: number;
  /** Share of the converter's range that the whole travel of the potentiometer uses, 0-1. */
  rangeShare: number;
}

const STEPS = 20;

export function supplyEffectOf(rig: Rig, finger: Finger): SupplyEffect {
  const parts = nominalFinger(rig, finger);
  const channel = createChannel(finger, parts);
  const curve = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, 1, 0);
  const nominalV = rig.supply.volts;
  const change = supplySpread(rig);
  const lowestV = nominalV * (1 - change);
  const voltsAt = (closure: number, supplyV: number) =>
    pinVolts(channel, wiperAt(channel, closure * parts.fullMm), supplyV);
  const counts = (closure: number, supplyV: number) => countsAt(curve, voltsAt(closure, supplyV));
  const codes = (closure: number, supplyV: number) => codeOf(counts(closure, supplyV));
  const open = codes(0, nominalV);
  const closed = codes(1, nominalV);
  const span = Math.max(1, closed - open);

  const railShare = rig.rail?.divider ?? USUAL_RAIL;
  const railAt = (supplyV: number) => countsAt(curve, railShare * supplyV);
  /** Largest error, counts, that a reading of the rail leaves at a supply. */
  const leftAt = (supplyV: number) => {
    let left = 0;
    for (let i = 0; i <= STEPS; i++) {
      const repaired = railCompensated(counts(i / STEPS, supplyV), railAt(supplyV), railAt(nominalV));
      left = Math.max(left, Math.abs(repaired - counts(i / STEPS, nominalV)));
    }
    return left;
  };
  const saggedV = nominalV * (1 - rig.supply.sag);
  const [lowMv, highMv] = boardFacts(rig.board).adcRangeMv;
  const usedV = pinVolts(channel, 1, nominalV) - pinVolts(channel, 0, nominalV);
  return {
    lowestV,
    changePct: -100 * change,
    readingPct: 100 * (counts(1, lowestV) / counts(1, nominalV) - 1),
    counts: counts(1, lowestV) - counts(1, nominalV),
    sagPct: (100 * (counts(1, nominalV) - counts(1, saggedV))) / span,
    withRailPct: (100 * leftAt(lowestV)) / 4096,
    sagWithRailPct: (100 * leftAt(saggedV)) / span,
    reachPct: (100 * (codes(1, lowestV) - open)) / span,
    rangeShare: (1000 * usedV) / (highMv - lowMv),
  };
}
