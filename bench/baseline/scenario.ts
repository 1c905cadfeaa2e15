import { DEFAULT_ATTENUATION_DB, voltsAt } from '../../firmware/boards/adc-curve.ts';
import {
  buildCalibration,
  type Calibration,
  type CalibrationPoint,
} from '../../firmware/chain/calibration-curve.ts';
import type { Ends } from '../../firmware/chain/word-scale.ts';
import { buildCurveTable, countsAt } from '../../sim/adc/curve.ts';
import type { Finger, Rig } from '../../sim/rig/rig.ts';
import { type Channel, createChannel, pinVolts, wiperAt } from '../../sim/study/channel.ts';
import {
  drawer,
  drawFinger,
  drawHand,
  type FingerDraw,
  type HandDraw,
  STREAM,
  scenarioOf,
} from '../../sim/study/draw-parts.ts';
import type { Motion } from '../../sim/study/motion.ts';
import { STANDARD_LENGTH_S, standardMotion } from '../../sim/study/standard-motion.ts';
import { END_MARGIN } from '../../sim/study/trace.ts';
import { type Windows, windowsOf } from '../../sim/study/windows.ts';

/**
 * One finger of one draw: which parts, which motion, which calibration. The same as in the product, so that both
 * study the same builds; made once and shared by all settings, as anyone would.
 */
export interface Scenario {
  rig: Rig;
  finger: Finger;
  hand: HandDraw;
  parts: FingerDraw;
  channel: Channel;
  motion: Motion;
  windows: Windows;
  frames: number;
  periodS: number;
  /** Counts at 0 mV, 1 mV, ... */
  curve: Float64Array;
  ends: Ends;
  calibration: Calibration;
  /** Counts between the open and the closed hand. */
  spanCounts: number;
  deadShare: number;
}

const TRAVEL_PARTS = 50;

/** @throws Error for rigs with crosstalk between channels, which the baseline leaves out */
export function createScenario(rig: Rig, seed: number, draw: number, fingerIndex: number): Scenario {
  if (rig.noise.residue > 0) {
    throw new Error(
      `baseline: noise.residue is ${rig.noise.residue}; it does not simulate neighbouring channels. Use 0.`,
    );
  }
  const finger = rig.fingers[fingerIndex];
  const hand = drawHand(rig, seed, draw);
  const parts = drawFinger(rig, finger, fingerIndex, seed, draw);
  const channel = createChannel(finger, parts);
  const motion = standardMotion(drawer(scenarioOf(draw, fingerIndex), seed, STREAM.motion));
  const periodS = 1 / rig.frameRateHz;
  const frames = Math.floor(STANDARD_LENGTH_S * rig.frameRateHz + 1e-9);
  const curve = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, hand.adcGain, 0);
  const settled = (stringMm: number) =>
    countsAt(curve, pinVolts(channel, wiperAt(channel, stringMm), hand.supplyV));
  const points = capture(settled, channel.playHalfMm, parts.fullMm, rig.calibrationPoints);
  return {
    rig,
    finger,
    hand,
    parts,
    channel,
    motion,
    windows: windowsOf(motion, periodS, frames),
    frames,
    periodS,
    curve,
    ends: { open: points[0].x / 4096, closed: points[points.length - 1].x / 4096 },
    calibration: buildCalibration(points, {
      chipCurve: (counts) => voltsAt(rig.board, DEFAULT_ATTENUATION_DB, counts),
    }),
    spanCounts: settled(parts.fullMm) - settled(0),
    deadShare: deadShareOf(settled, parts.fullMm),
  };
}

/** What the maker captures: both ends a little inside, and poses evenly in between. */
function capture(
  settled: (stringMm: number) => number,
  playHalfMm: number,
  fullMm: number,
  count: number,
): CalibrationPoint[] {
  const points = Array.from({ length: count }, (_, i) => {
    const closure = i / (count - 1);
    let stringMm = closure * fullMm;
    if (i === 0) stringMm = playHalfMm;
    if (i === count - 1) stringMm = fullMm - playHalfMm;
    return { x: Math.min(4095, Math.max(0, settled(stringMm))), closure };
  });
  const margin = END_MARGIN * (points[count - 1].x - points[0].x);
  points[0].x += margin;
  points[count - 1].x -= margin;
  return points;
}

/** Share of the travel over which the reading hardly changes. */
function deadShareOf(settled: (stringMm: number) => number, fullMm: number): number {
  const counts = Array.from({ length: TRAVEL_PARTS + 1 }, (_, i) =>
    Math.min(4095, Math.max(0, settled((i / TRAVEL_PARTS) * fullMm))),
  );
  const average = Math.abs(counts[TRAVEL_PARTS] - counts[0]) / TRAVEL_PARTS;
  const dead = counts.slice(1).filter((c, i) => Math.abs(c - counts[i]) <= 0.1 * average);
  return dead.length / TRAVEL_PARTS;
}
