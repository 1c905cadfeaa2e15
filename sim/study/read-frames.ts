import { boardFacts } from '../../firmware/boards/boards.ts';
import { codeOf } from '../adc/curve.ts';
import {
  ESP32_TOP_GROWTH,
  humCounts,
  nextWander,
  oddCode,
  sdAt,
  spikeCounts,
  wanderKeep,
  wanderScale,
  withResidue,
} from '../adc/noise.ts';
import type { RestNoise } from '../adc/rest-noise.ts';
import { BURST_JUMP, BURST_S, burstRatePerS, wearNoiseFactor } from '../pot/wear.ts';
import type { Rig } from '../rig/rig.ts';
import { fillGauss, gaussAt } from '../seed/gauss.ts';
import { keys, uniformAt } from '../seed/mix.ts';
import { type HandDraw, STREAM } from './draw-parts.ts';
import { OVERSAMPLINGS } from './plan.ts';
import { stepsPerFrame } from './trace-types.ts';

/** Readings taken per frame; settings with less oversampling use the last ones of them. */
const READS = 32;
/** The interpreter gives a reading as counts / 4096. */
const READING_SCALE = 4096;
/** Size of the wrong frame that recovery is scored on, counts. */
export const TEST_SPIKE_COUNTS = 600;
/** A frame's readings end up to this long before its even tick, s: 9.999 ms ± 0.08 on the interpreter's Linux build. */
const TICK_JITTER_S = 0.00016;

/** Counter of the recording's first row, above all readings of a trace. */
const START_ROW_COUNTER = 1 << 21;

/**
 * What stays the same over all readings of a frame and is new in the next, counts sd: the mean of 64 readings kept
 * 0.47 counts of sd, of which rounding and the readings' own noise explain 0.14 (measured, kisel/esp32_adc_test:
 * √(0.47² − 0.14²)). Taken as the chip's own, the same for all builds (assumed).
 */
export const FRAME_NOISE_COUNTS = 0.45;

/** Share of the readings' variance that the wiring picks up ahead of the capacitor (assumed). */
export const PICK_UP_SHARE = 0.2;

/** What the reader needs to know about one trace. */
export interface ReadJob {
  scenario: number;
  seed: number;
  /** Channel of the recording that stands for this finger. */
  restChannel: number;
  /** Noise-free counts at every world step, not held within 0-4095. */
  counts: Float64Array;
  /** The same of the channel read before this one; used only when the rig has residue. */
  neighbour: Float64Array;
  /** Wiper position at every world step. */
  wiper: Float64Array;
  sdCounts: number;
  hand: HandDraw;
  usedCycles: number;
  ratedCycles: number;
  /** Counts between the ends of the travel: what a burst of bad contact jumps on. */
  spanCounts: number;
  spikeFrames: number[];
}

/** Turns counts over time into what the board reads. */
export interface FrameReader {
  /** @param readings filled: [oversampling index][frame], sums of counts / 4096 */
  read(job: ReadJob, readings: Float64Array[]): void;
}

/**
 * The readings of a frame follow each other without a pause and end at the frame's tick, so the mean of the
 * last 2, 4, 8 ... of them comes from one pass. Where the other fingers' readings lie in between is left out
 * here and added to the lag as a plain delay.
 */
export function createReader(rig: Rig, frames: number, rest?: RestNoise): FrameReader {
  const periodS = 1 / rig.frameRateHz;
  const perFrame = stepsPerFrame(rig.frameRateHz);
  const stepS = periodS / perFrame;
  const readS = boardFacts(rig.board).readUs * 1e-6;
  const readSteps = readS / stepS;
  const growth = rig.board === 'esp32' ? ESP32_TOP_GROWTH : 0;
  const { residue } = rig.noise;
  // A recording brings its own spikes and odd codes.
  const spikeShare = rest ? 0 : rig.noise.spikeShare;
  const oddShare = rest ? 0 : rig.noise.oddShare;
  const [leastSpike, mostSpike] = rig.noise.spikeCounts;
  const keep = wanderKeep(periodS);
  const pickUpPart = Math.sqrt(1 + PICK_UP_SHARE * ((rig.noise.pickUpFactor ?? 1) - 1));
  const noise = new Float64Array(READS);
  const exact = new Float64Array(READS);
  const codes = new Float64Array(READS);

  /** Fills `noise` with what is added to the readings of frame f, the latest first. */
  function fillNoise(job: ReadJob, f: number, sd: number, n0: number, n1: number): void {
    if (rest) {
      const channel = job.restChannel;
      const startRow = Math.floor(uniformAt(START_ROW_COUNTER, n0, n1) * rest.rows);
      const held = rest.slowAt(channel, f, periodS, startRow);
      const own = ownPart(rest.sdCounts[channel]);
      for (let j = 0; j < READS; j++) {
        noise[j] = held + own * rest.fastAt(channel, uniformAt(f * READS + j, n0, n1));
      }
      return;
    }
    const timeS = (f + 1) * periodS;
    const { humHz, humPhaseRad } = job.hand;
    const hum = humCounts(rig.noise.humCounts, humHz, humPhaseRad, timeS);
    const humSlope =
      (hum - humCounts(rig.noise.humCounts, humHz, humPhaseRad, timeS - READS * readS)) / READS;
    fillGauss(noise, f * READS, n0, n1);
    shapeNoise(noise, sd * ownPart(sd) * pickUpPart, hum, humSlope);
  }

  return {
    read(job, readings) {
      const { counts, scenario, seed } = job;
      const [n0, n1] = keys(scenario, seed, STREAM.noise);
      const [o0, o1] = keys(scenario, seed, STREAM.odd);
      const [s0, s1] = keys(scenario, seed, STREAM.spikes);
      const [w0, w1] = keys(scenario, seed, STREAM.wander);
      const [j0, j1] = keys(scenario, seed, STREAM.jitter);
      const [b0, b1] = keys(scenario, seed, STREAM.bursts);
      const [p0, p1] = keys(scenario, seed, STREAM.pickUp);
      // A recording holds whatever the wiper does already.
      const bursts = rest ? [] : burstTimes(job, frames * periodS);
      const sd = job.sdCounts * wearNoiseFactor(job.usedCycles, job.ratedCycles);
      const frameSd = Math.min(FRAME_NOISE_COUNTS, rest ? rest.sdCounts[job.restChannel] : sd);
      const testSpike = uniformAt(frames, j0, j1) < 0.5 ? -TEST_SPIKE_COUNTS : TEST_SPIKE_COUNTS;
      let wander = gaussAt(frames, w0, w1);
      for (let f = 0; f < frames; f++) {
        const end = (f + 1) * perFrame - 1;
        fillNoise(job, f, sdAt(counts[end], sd, growth), n0, n1);
        wander = nextWander(wander, keep, gaussAt(f, w0, w1));
        let slow = frameSd * gaussAt(f, p0, p1);
        if (!rest) slow += wander * wanderScale(job.wiper[end], rig.noise.wanderCounts);
        if (job.spikeFrames.indexOf(f) >= 0) slow += testSpike;
        if (inBurst(bursts, (f + 1) * periodS)) {
          for (let j = 0; j < READS; j++) {
            noise[j] += BURST_JUMP * job.spanCounts * (2 * uniformAt(f * READS + j, b0, b1) - 1);
          }
        }
        const place = end - (uniformAt(f, j0, j1) * TICK_JITTER_S) / stepS;
        fillExact(counts, end, place, readSteps, slow, noise, exact);
        // Isolated spikes are rare: mostly none in a frame, and one draw tells how many.
        const spikes = spikeShare > 0 ? Math.floor(spikeShare * READS + 1 - uniformAt(f, s0, s1)) : 0;
        for (let k = 0; k < spikes; k++) {
          const counter = frames + 2 * (f + k * frames);
          const at = Math.floor(uniformAt(counter, s0, s1) * READS);
          exact[at] += spikeCounts(uniformAt(counter + 1, s0, s1), 1, leastSpike, mostSpike);
        }
        toCodes(exact, codes);
        if (oddShare > 0) {
          for (let j = 0; j < READS; j++) {
            codes[j] = oddCode(codes[j], uniformAt(f * READS + j, o0, o1), oddShare);
          }
        }
        let sum = 0;
        let from = 0;
        for (let i = 0; i < OVERSAMPLINGS.length; i++) {
          const last = OVERSAMPLINGS[i] - 1;
          for (; from < last; from++) sum += codes[from];
          // The earliest reading of the burst still holds some of the channel read before it.
          const earliest =
            residue > 0 ? codeOf(withResidue(codes[last], job.neighbour[end], residue)) : codes[last];
          readings[i][f] = (sum + earliest) / READING_SCALE;
        }
      }
    },
  };
}

/** Share of a noise's sd that single readings have to themselves, so that with the frame's part it stays the same. */
function ownPart(sdCounts: number): number {
  return sdCounts > FRAME_NOISE_COUNTS ? Math.sqrt(1 - (FRAME_NOISE_COUNTS / sdCounts) ** 2) : 0;
}

// The loops over the readings of one frame: short functions, called often, are compiled best.

/** Unit noise becomes counts: scaled, on top of the hum. */
function shapeNoise(noise: Float64Array, sd: number, hum: number, humSlope: number): void {
  for (let j = 0; j < READS; j++) noise[j] = noise[j] * sd + hum - humSlope * j;
}

/** Fills `exact` with the expected readings plus noise, the latest first. */
function fillExact(
  counts: Float64Array,
  end: number,
  lastPlace: number,
  readSteps: number,
  slow: number,
  noise: Float64Array,
  exact: Float64Array,
): void {
  let place = lastPlace;
  for (let j = 0; j < READS; j++) {
    const at = place > 0 ? place | 0 : 0;
    const low = counts[at];
    const next = at < end ? counts[at + 1] : low;
    exact[j] = low + (next - low) * (place - at) + slow + noise[j];
    place -= readSteps;
  }
}

function toCodes(exact: Float64Array, codes: Float64Array): void {
  for (let j = 0; j < READS; j++) codes[j] = codeOf(exact[j]);
}

function inBurst(bursts: number[], timeS: number): boolean {
  for (const fromS of bursts) if (timeS >= fromS && timeS < fromS + BURST_S) return true;
  return false;
}

/** Starts of the bursts of bad contact of a worn wiper, s. */
function burstTimes(job: ReadJob, lengthS: number): number[] {
  const rate = burstRatePerS(job.usedCycles, job.ratedCycles);
  const [k0, k1] = keys(job.scenario, job.seed, STREAM.bursts);
  const times: number[] = [];
  if (!(rate > 0)) return times;
  // Counters above those of the readings' own draws.
  let counter = 1 << 21;
  let timeS = -Math.log(uniformAt(counter++, k0, k1)) / rate;
  while (timeS < lengthS) {
    times.push(timeS);
    timeS += BURST_S - Math.log(uniformAt(counter++, k0, k1)) / rate;
  }
  return times;
}
