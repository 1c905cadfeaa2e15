import { boardFacts } from '../../firmware/boards/boards.ts';
import { codeOf } from '../../sim/adc/curve.ts';
import {
  ESP32_TOP_GROWTH,
  humCounts,
  nextWander,
  oddCode,
  sdAt,
  spikeCounts,
  wanderKeep,
  wanderScale,
} from '../../sim/adc/noise.ts';
import { BURST_JUMP, BURST_S, burstRatePerS, wearNoiseFactor } from '../../sim/pot/wear.ts';
import { FRAME_NOISE_COUNTS, PICK_UP_SHARE, TEST_SPIKE_COUNTS } from '../../sim/study/read-frames.ts';
import { stepsPerFrame } from '../../sim/study/trace-types.ts';
import { FingerWorld, type WorldSample } from './finger-world.ts';
import type { Random } from './random.ts';
import type { Scenario } from './scenario.ts';

/** Spread of a frame's start, s; as in the product's traces. */
const TICK_JITTER_S = 0.00016;

/** What the board reads in one frame, with the truth beside it. */
export interface FrameReadings {
  truth: number;
  /** Codes of 0-4095 in the order in which they were read. */
  codes: number[];
}

/** Simulates one finger from the first frame to the last. */
export function simulateFinger(scenario: Scenario, oversampling: number, random: Random): FrameReadings[] {
  const { rig, finger, hand, parts, frames, periodS, windows } = scenario;
  const { usedCycles, ratedCycles } = finger.potentiometer;
  const perFrame = stepsPerFrame(rig.frameRateHz);
  const stepS = periodS / perFrame;
  const readS = boardFacts(rig.board).readUs * 1e-6;
  const growth = rig.board === 'esp32' ? ESP32_TOP_GROWTH : 0;
  const keep = wanderKeep(periodS);
  const pickUpPart = Math.sqrt(1 + PICK_UP_SHARE * ((rig.noise.pickUpFactor ?? 1) - 1));
  const sd = parts.sdCounts * wearNoiseFactor(usedCycles, ratedCycles);
  const frameSd = Math.min(FRAME_NOISE_COUNTS, sd);
  const bursts = burstTimes(burstRatePerS(usedCycles, ratedCycles), frames * periodS, random);
  const testSpike = random.uniform() < 0.5 ? -TEST_SPIKE_COUNTS : TEST_SPIKE_COUNTS;
  const world = new FingerWorld(scenario, stepS);
  const samples: WorldSample[] = [];
  const result: FrameReadings[] = [];
  let wander = random.normal();
  for (let f = 0; f < frames; f++) {
    for (let k = 1; k <= perFrame; k++) samples.push(world.update((f * perFrame + k) * stepS));
    const timeS = (f + 1) * periodS;
    const now = samples[samples.length - 1];
    wander = nextWander(wander, keep, random.normal());
    let slow = wander * wanderScale(now.wiper, rig.noise.wanderCounts) + frameSd * random.normal();
    if (windows.spikes.some((spike) => spike.from === f)) slow += testSpike;
    const inBurst = bursts.some((fromS) => timeS >= fromS && timeS < fromS + BURST_S);
    const endS = timeS - random.uniform() * TICK_JITTER_S;
    const codes: number[] = [];
    for (let j = oversampling - 1; j >= 0; j--) {
      const atS = endS - j * readS;
      let counts = countsAtTime(samples, atS / stepS - 1) + slow;
      counts += humCounts(rig.noise.humCounts, hand.humHz, hand.humPhaseRad, atS);
      const readingSd = sdAt(now.counts, sd, growth);
      counts += Math.sqrt(readingSd ** 2 - frameSd ** 2) * pickUpPart * random.normal();
      if (inBurst) counts += BURST_JUMP * scenario.spanCounts * (2 * random.uniform() - 1);
      const [least, most] = rig.noise.spikeCounts;
      counts += spikeCounts(random.uniform(), rig.noise.spikeShare, least, most);
      const code = codeOf(counts);
      codes.push(rig.noise.oddShare > 0 ? oddCode(code, random.uniform(), rig.noise.oddShare) : code);
    }
    result.push({ truth: now.closure, codes });
  }
  return result;
}

/** Counts between two world steps. */
function countsAtTime(samples: WorldSample[], place: number): number {
  const at = Math.max(0, Math.floor(place));
  const low = samples[at].counts;
  const high = at + 1 < samples.length ? samples[at + 1].counts : low;
  return low + (high - low) * (place - at);
}

function burstTimes(ratePerS: number, lengthS: number, random: Random): number[] {
  const times: number[] = [];
  if (ratePerS <= 0) return times;
  let timeS = -Math.log(random.uniform()) / ratePerS;
  while (timeS < lengthS) {
    times.push(timeS);
    timeS += BURST_S - Math.log(random.uniform()) / ratePerS;
  }
  return times;
}
