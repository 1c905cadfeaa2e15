import { describe, expect, it } from 'vitest';
import { nextWander, wanderKeep } from '../../../sim/adc/noise.ts';
import { createRestNoise, type RestNoise } from '../../../sim/adc/rest-noise.ts';
import type { RestRecording } from '../../../sim/rig/rig.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys, uniformAt } from '../../../sim/seed/mix.ts';

interface Mix {
  white: number;
  wander: number;
  hum: number;
  humHz: number;
  drift: number;
}

const ROWS = 6000;
const FRAME_S = 0.01;

/** One minute at 100 Hz of known noise, as whole counts about 1500. */
function record(mix: Mix, seed: number): Float64Array {
  const [k0, k1] = keys(1, seed, 0);
  const [w0, w1] = keys(1, seed, 3);
  const keep = wanderKeep(FRAME_S);
  let wander = gaussAt(0, w0, w1);
  return Float64Array.from({ length: ROWS }, (_, i) => {
    wander = nextWander(wander, keep, gaussAt(i + 1, w0, w1));
    const hum = mix.hum * Math.sin(2 * Math.PI * mix.humHz * i * FRAME_S + 1);
    const value = 1500 + mix.white * gaussAt(i, k0, k1) + mix.wander * wander + hum + (mix.drift * i) / ROWS;
    return Math.round(value);
  });
}

function recording(...counts: Float64Array[]): RestRecording {
  return { file: 'rest.csv', periodS: FRAME_S, counts, channelNames: counts.map((_, i) => `c${i}`) };
}

/** Means of `readings` readings a frame. */
function replay(noise: RestNoise, channel: number, readings: number, frameS = FRAME_S): Float64Array {
  const [u0, u1] = keys(9, 9, 0);
  return Float64Array.from({ length: ROWS }, (_, frame) => {
    let fast = 0;
    for (let j = 0; j < readings; j++) fast += noise.fastAt(channel, uniformAt(frame * readings + j, u0, u1));
    return noise.slowAt(channel, frame, frameS, 0) + fast / readings;
  });
}

function sdAndLag1(values: Float64Array): [number, number] {
  const mean = values.reduce((a, b) => a + b) / values.length;
  let squares = 0;
  let products = 0;
  values.forEach((v, i) => {
    squares += (v - mean) ** 2;
    if (i > 0) products += (v - mean) * (values[i - 1] - mean);
  });
  return [Math.sqrt(squares / values.length), products / squares];
}

const MIXES: [string, Mix][] = [
  ['white noise', { white: 5, wander: 0, hum: 0, humHz: 50, drift: 0 }],
  ['50 Hz hum', { white: 3, wander: 0, hum: 4, humHz: 49.9, drift: 0 }],
  ['60 Hz hum', { white: 3, wander: 0, hum: 4, humHz: 60.02, drift: 0 }],
  ['wander', { white: 3, wander: 5, hum: 0, humHz: 50, drift: 0 }],
  ['drift', { white: 2, wander: 0, hum: 0, humHz: 50, drift: 20 }],
  ['all of them', { white: 3, wander: 4, hum: 3, humHz: 50.1, drift: 10 }],
];

describe('rest recording as noise', () => {
  it.each(MIXES)(
    '%s: one reading a frame has the recording’s sd within 5 % and lag-1 within 0.05',
    (_, mix) => {
      const recorded = record(mix, 4);
      const [sd, lag1] = sdAndLag1(recorded);
      const [ourSd, ourLag1] = sdAndLag1(replay(createRestNoise(recording(recorded)), 0, 1));
      expect(Math.abs(ourSd / sd - 1)).toBeLessThan(0.05);
      expect(Math.abs(ourLag1 - lag1)).toBeLessThan(0.05);
    },
  );

  it('averages white noise away with more readings a frame, as the same noise read that often would', () => {
    const noise = createRestNoise(recording(record(MIXES[0][1], 5)));
    for (const readings of [4, 8, 16]) {
      // 5 counts and the rounding of the recording (1/√12), over √N; the split may leave a tenth more
      const ideal = Math.hypot(5, 0.2887) / Math.sqrt(readings);
      const [sd] = sdAndLag1(replay(noise, 0, readings));
      expect(sd / ideal).toBeGreaterThan(0.95);
      expect(sd / ideal).toBeLessThan(1.15);
    }
  });

  it('does not average wander and hum away', () => {
    const mix = MIXES[5][1];
    const noise = createRestNoise(recording(record(mix, 6)));
    const slow = Math.sqrt(mix.wander ** 2 + mix.hum ** 2 / 2 + mix.drift ** 2 / 12);
    const [sd] = sdAndLag1(replay(noise, 0, 32));
    expect(Math.abs(sd / slow - 1)).toBeLessThan(0.1);
  });

  it('keeps isolated spikes as single readings', () => {
    const recorded = record({ white: 1, wander: 0, hum: 0, humHz: 50, drift: 0 }, 7);
    for (let i = 100; i < ROWS; i += 300) recorded[i] += 400;
    const noise = createRestNoise(recording(recorded));
    const spikes = Array.from({ length: ROWS }, (_, i) => noise.fastAt(0, (i + 0.5) / ROWS)).filter(
      (f) => f > 300,
    );
    expect(spikes.length).toBe(20); // one in 300 of 6000 rows
  });

  it('runs back and forth without a jump, from any row', () => {
    const noise = createRestNoise(recording(record(MIXES[4][1], 8)));
    const at = (frame: number, start = 0) => noise.slowAt(0, frame, FRAME_S, start);
    expect(at(ROWS)).toBe(at(ROWS - 2));
    expect(at(2 * ROWS - 2)).toBe(at(0));
    expect(at(5, 1000)).toBe(at(1005));
  });

  it('goes by time when the frame rate is not the recording’s', () => {
    const noise = createRestNoise(recording(record(MIXES[4][1], 8)));
    expect(noise.slowAt(0, 20, 0.005, 0)).toBe(noise.slowAt(0, 10, 0.01, 0));
    const between = noise.slowAt(0, 21, 0.005, 0);
    expect(between).toBeCloseTo((noise.slowAt(0, 10, 0.01, 0) + noise.slowAt(0, 11, 0.01, 0)) / 2, 9);
  });

  it('keeps channels apart', () => {
    const noise = createRestNoise(recording(record(MIXES[0][1], 1), record(MIXES[3][1], 2)));
    expect(noise.channels).toBe(2);
    expect(noise.sdCounts[0]).toBeCloseTo(5, 0);
    expect(noise.sdCounts[1]).toBeCloseTo(Math.hypot(3, 5), 0);
  });

  it('gives silence for a recording without any noise', () => {
    const noise = createRestNoise(recording(new Float64Array(500).fill(2000)));
    expect(noise.slowAt(0, 3, FRAME_S, 0)).toBe(0);
    expect(noise.fastAt(0, 0.7)).toBe(0);
  });

  it('refuses a recording that is too short and says what to do', () => {
    expect(() => createRestNoise(recording(new Float64Array(10)))).toThrow(
      /rest\.csv has 10 rows.*Record for longer/,
    );
  });
});
