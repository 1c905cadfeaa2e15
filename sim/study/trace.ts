import { DEFAULT_ATTENUATION_DB, voltsAt } from '../../firmware/boards/adc-curve.ts';
import {
  buildCalibration,
  type CalibrationPoint,
  fillTable,
} from '../../firmware/chain/calibration-curve.ts';
import { type Ends, readingOfWord } from '../../firmware/chain/word-scale.ts';
import { buildCurveTable, countsAt } from '../adc/curve.ts';
import { sagFactor } from '../adc/noise.ts';
import type { RestNoise } from '../adc/rest-noise.ts';
import { FULL_FLEXION_DEG } from '../hand/closure.ts';
import { fillTremorDeg } from '../hand/tremor.ts';
import type { Rig } from '../rig/rig.ts';
import { type Channel, createChannel, follow, pinVolts, wiperAt } from './channel.ts';
import {
  drawer,
  drawFinger,
  drawHand,
  type FingerDraw,
  type HandDraw,
  STREAM,
  scenarioOf,
} from './draw-parts.ts';
import { fillClosure } from './motion.ts';
import { OVERSAMPLINGS } from './plan.ts';
import { createReader } from './read-frames.ts';
import { restChannels } from './rest-channels.ts';
import { STANDARD_LENGTH_S, standardMotion } from './standard-motion.ts';
import { stepsPerFrame, TABLE_LENGTH, TABLE_STEP_BITS, type Trace } from './trace-types.ts';
import { windowsOf } from './windows.ts';

/** Peak of the hand's tremor at the base joint, deg: 30 µm at the fingertip times 2-3 with the arm out (Growdon 2000). */
const TREMOR_DEG = 0.05;
/** Steps worked on at a time; see channel.ts. */
const CHUNK_STEPS = 320;
/** Ends are captured this far inside, share of full closure, so that the real ends are reached in spite of noise and play. */
export const END_MARGIN = 0.01;
/** Below this distance of the ends a finger cannot be calibrated; it is scored with this distance instead. */
const LEAST_SPAN_COUNTS = 40;

/** Makes traces of one rig; holds the work space, so that a trace allocates only what it returns. */
export interface Tracer {
  frames: number;
  /** One finger of one draw; the same arguments always give the same bits. */
  /** @param reuse a trace of this tracer that is no longer needed: its arrays are written over */
  trace(draw: number, fingerIndex: number, reuse?: Trace): Trace;
}

/**
 * @param rig the build
 * @param seed study seed, any 32-bit integer
 * @param rest noise at rest as recorded; replaces the rig's noise levels
 */
export function createTracer(rig: Rig, seed: number, rest?: RestNoise): Tracer {
  const periodS = 1 / rig.frameRateHz;
  const frames = Math.floor(STANDARD_LENGTH_S * rig.frameRateHz + 1e-9);
  const perFrame = stepsPerFrame(rig.frameRateHz);
  const steps = frames * perFrame;
  const stepS = periodS / perFrame;
  const world = {
    closure: new Float64Array(steps),
    string: new Float64Array(steps),
    supply: new Float64Array(steps),
    counts: new Float64Array(steps),
    neighbour: new Float64Array(steps),
  };
  const channels = rest ? restChannels(rest.channelNames, rig).map((c) => c.channel) : [];
  const reader = createReader(rig, frames, rest);

  /** The supply is the same for all fingers of a draw; it sags slowly, so once a frame is enough. */
  function fillSupply(hand: HandDraw): void {
    for (let f = 0; f < frames; f++) {
      const volts = hand.supplyV * sagFactor(rig.supply.sag, hand.sagPhaseRad, (f + 1) * periodS);
      world.supply.fill(volts, f * perFrame, (f + 1) * perFrame);
    }
  }

  /** Fills counts (and world.string with the wiper position) of one finger; returns what it was built from. */
  function simulate(hand: HandDraw, draw: number, fingerIndex: number, counts: Float64Array) {
    const finger = rig.fingers[fingerIndex];
    const parts = drawFinger(rig, finger, fingerIndex, seed, draw);
    const channel = createChannel(finger, parts);
    const motion = standardMotion(drawer(scenarioOf(draw, fingerIndex), seed, STREAM.motion));
    fillClosure(motion, stepS, world.closure);
    fillTremorDeg(world.string, stepS, TREMOR_DEG, parts.tremorHz, parts.tremorPhaseRad);
    for (let from = 0; from < steps; from += CHUNK_STEPS) {
      toStringMm(
        world.closure,
        parts.fullMm,
        1 / FULL_FLEXION_DEG[0],
        world.string,
        from,
        from + CHUNK_STEPS,
      );
    }
    follow(channel, world.string, world.supply, stepS, counts);
    const curve = buildCurveTable(rig.board, DEFAULT_ATTENUATION_DB, hand.adcGain, 0);
    for (let from = 0; from < steps; from += CHUNK_STEPS) toCounts(curve, counts, from, from + CHUNK_STEPS);
    return { parts, channel, motion, curve };
  }

  return {
    frames,
    trace(draw, fingerIndex, reuse) {
      const hand = drawHand(rig, seed, draw);
      fillSupply(hand);
      const before = (fingerIndex + rig.fingers.length - 1) % rig.fingers.length;
      if (rig.noise.residue > 0) simulate(hand, draw, before, world.neighbour);
      const { parts, channel, motion, curve } = simulate(hand, draw, fingerIndex, world.counts);
      const settled = (stringMm: number) =>
        countsAt(curve, pinVolts(channel, wiperAt(channel, stringMm), hand.supplyV));
      const points = capture(settled, channel, parts, rig.calibrationPoints);
      const ends: Ends = { open: points[0].x / 4096, closed: points[points.length - 1].x / 4096 };
      const truth = reuse?.truth ?? new Float64Array(frames);
      for (let f = 0; f < frames; f++) truth[f] = world.closure[(f + 1) * perFrame - 1];
      const windows = windowsOf(motion, periodS, frames);
      const readings = reuse?.readings ?? OVERSAMPLINGS.map(() => new Float64Array(frames));
      const closureTable = reuse?.closureTable ?? new Float64Array(TABLE_LENGTH);
      fillClosureTable(closureTable, points, ends, rig);
      reader.read(
        {
          scenario: scenarioOf(draw, fingerIndex),
          seed,
          restChannel: channels[fingerIndex] ?? 0,
          counts: world.counts,
          neighbour: world.neighbour,
          wiper: world.string,
          sdCounts: parts.sdCounts,
          hand,
          usedCycles: rig.fingers[fingerIndex].potentiometer.usedCycles,
          ratedCycles: rig.fingers[fingerIndex].potentiometer.ratedCycles,
          spanCounts: settled(parts.fullMm) - settled(0),
          spikeFrames: windows.spikes.map((spike) => spike.from),
        },
        readings,
      );
      return {
        frames,
        periodS,
        readings,
        truth,
        ends,
        closureTable,
        windows,
        deadShare: deadShareOf(settled, parts.fullMm),
        gestureHalf: (rig.gesture.onClosure - rig.gesture.offClosure) / 2,
      };
    },
  };
}

/** Tremor (deg, in `string`) and closure become string drawn, mm. */
function toStringMm(
  closure: Float64Array,
  fullMm: number,
  closurePerDeg: number,
  string: Float64Array,
  from: number,
  to: number,
): void {
  const end = Math.min(to, string.length);
  for (let i = from; i < end; i++) string[i] = (closure[i] + string[i] * closurePerDeg) * fullMm;
}

/** Volts become the counts that a noise-free chip would read. */
function toCounts(curve: Float64Array, values: Float64Array, from: number, to: number): void {
  const end = Math.min(to, values.length);
  for (let i = from; i < end; i++) values[i] = countsAt(curve, values[i]);
}

/** Steps into which the travel is cut to look for dead stretches. */
const DEAD_STEPS = 50;

/** Share of the travel over which the reading changes by less than a tenth of what it does on average. */
function deadShareOf(settled: (stringMm: number) => number, fullMm: number): number {
  const held = (i: number) => Math.min(4095, Math.max(0, settled((i / DEAD_STEPS) * fullMm)));
  const least = 0.1 * (Math.abs(held(DEAD_STEPS) - held(0)) / DEAD_STEPS);
  let dead = 0;
  let before = held(0);
  for (let i = 1; i <= DEAD_STEPS; i++) {
    const here = held(i);
    if (!(Math.abs(here - before) > least)) dead++;
    before = here;
  }
  return dead / DEAD_STEPS;
}

/** What the maker captures: the ends as they are reached in use, poses in between from both sides. */
function capture(
  settled: (stringMm: number) => number,
  channel: Channel,
  parts: FingerDraw,
  count: number,
): CalibrationPoint[] {
  const lost = Math.min(channel.playHalfMm, 0.4 * parts.fullMm);
  const openMm = lost;
  const closedMm = parts.fullMm - lost;
  const points: CalibrationPoint[] = [];
  for (let i = 0; i < count; i++) {
    const closure = i / (count - 1);
    // Between the ends play takes half its width either way, which cancels over both directions.
    const stringMm = i === 0 ? openMm : i === count - 1 ? closedMm : closure * parts.fullMm;
    points.push({ x: Math.min(4095, Math.max(0, settled(stringMm))), closure });
  }
  // The ends move inwards by a margin; with the neighbouring point as the way.
  const first = points[0];
  const last = points[count - 1];
  const margin = END_MARGIN * (last.x - first.x);
  first.x += margin;
  last.x -= margin;
  if (last.x - first.x < LEAST_SPAN_COUNTS || !rises(points)) {
    const from = Math.min(first.x, 4095 - LEAST_SPAN_COUNTS);
    return [
      { x: from, closure: 0 },
      { x: Math.max(last.x, from + LEAST_SPAN_COUNTS), closure: 1 },
    ];
  }
  return points;
}

function rises(points: CalibrationPoint[]): boolean {
  return points.every((point, i) => i === 0 || point.x > points[i - 1].x);
}

/** Closure for every 16th word, by the host's calibration after the average chip's curve. */
function fillClosureTable(table: Float64Array, points: CalibrationPoint[], ends: Ends, rig: Rig): void {
  const chipCurve = (counts: number) => voltsAt(rig.board, DEFAULT_ATTENUATION_DB, counts);
  const calibration = buildCalibration(points, { chipCurve });
  const first = readingOfWord(0, ends) * 4096;
  const next = readingOfWord(1 << TABLE_STEP_BITS, ends) * 4096;
  fillTable(calibration, first, next - first, table);
}
