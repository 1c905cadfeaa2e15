import { describe, expect, it } from 'vitest';
import { createRestNoise } from '../../../sim/adc/rest-noise.ts';
import { defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import type { RestRecording } from '../../../sim/rig/rig.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';
import { createTracer } from '../../../sim/study/trace.ts';
import { idealRig, restingRig, restStatistics, SILENCE } from './traces.ts';

const DRAWS = process.env.TAUTLINE_VERIFY === '1' ? 60 : 8;
const SEED = 5;

describe('noise of the readings', () => {
  it('averages away over 16 readings of a noisy pin as a maker saw it over ten', () => {
    // Nine single readings of 4.9 mV sd, ten means of ten of 1.1 mV (pycom forum thread "ADC woes"): a ratio of 0.22,
    // 0.18 over 16 if the rest is white. So few readings fix it to a factor of two.
    const tracer = createTracer(restingRig({ noise: { ...SILENCE, sdCounts: 18.9 } }), SEED);
    const { readings, windows } = tracer.trace(0, 0);
    const single = 4096 * restStatistics(readings[0], windows.spikes).sd;
    const mean = 256 * restStatistics(readings[4], windows.spikes).sd;
    expect(mean / single).toBeGreaterThan(0.18 / 2);
    expect(mean / single).toBeLessThan(0.18 * 2);
  });

  it('averages away over 32 readings to 0.42-0.50 of a single one, not to 1/√32 = 0.18', () => {
    // Measured on an ESP32 with 100 nF: 0.47 of 1.1 counts over 64 readings (kisel/esp32_adc_test).
    const tracer = createTracer(restingRig({ noise: { ...SILENCE, sdCounts: 1.1 } }), SEED);
    let single = 0;
    let mean = 0;
    for (let draw = 0; draw < DRAWS; draw++) {
      const { readings, windows } = tracer.trace(draw, 0);
      single += (4096 * restStatistics(readings[0], windows.spikes).sd) ** 2 / DRAWS;
      mean += (128 * restStatistics(readings[5], windows.spikes).sd) ** 2 / DRAWS;
    }
    expect(Math.sqrt(mean / single)).toBeGreaterThan(0.42);
    expect(Math.sqrt(mean / single)).toBeLessThan(0.5);
    // 1.1 counts within 25 % and rounding to whole counts
    expect(Math.sqrt(single)).toBeGreaterThan(0.85);
    expect(Math.sqrt(single)).toBeLessThan(1.45);
  });

  it.each([
    ['white', 0, 6],
    ['hum as frames of 100 Hz see it', 4, 3],
  ])(
    'from a recording (%s, %d counts) has its sd within a twentieth and its lag-1 correlation within 0.05',
    (_, hum, white) => {
      const rows = 12_000;
      const [k0, k1] = keys(1, 77, 0);
      const counts = Float64Array.from({ length: rows }, (_, i) =>
        Math.round(
          1500 + white * gaussAt(i, k0, k1) + hum * Math.sqrt(2) * Math.sin(2 * Math.PI * 47 * 0.01 * i),
        ),
      );
      const recording: RestRecording = {
        file: 'rest.csv',
        periodS: 0.01,
        counts: [counts],
        channelNames: ['index'],
      };
      const recorded = restStatistics(counts);
      // Every other noise is on, and must give way.
      const tracer = createTracer(
        restingRig({ noise: noisePreset('rough') }),
        SEED,
        createRestNoise(recording),
      );
      let squares = 0;
      let lag1 = 0;
      for (let draw = 0; draw < DRAWS; draw++) {
        const { readings, windows } = tracer.trace(draw, 0);
        const { sd, lag1: r } = restStatistics(readings[0], windows.spikes);
        squares += (4096 * sd) ** 2 / DRAWS;
        lag1 += r / DRAWS;
      }
      expect(Math.abs(Math.sqrt(squares) / recorded.sd - 1)).toBeLessThan(0.05);
      expect(Math.abs(lag1 - recorded.lag1)).toBeLessThan(0.05);
    },
  );
});

describe('isolated spikes', () => {
  it.each([0.002, 0.02, 0.1])(
    'hit a share of %d of the single readings, both ways, with sizes between the limits',
    (share) => {
      const noise = { ...SILENCE, spikeShare: share, spikeCounts: [100, 300] as [number, number] };
      const tracer = createTracer(restingRig({ noise }), SEED);
      let readings = 0;
      const sizes: number[] = [];
      for (let draw = 0; draw < DRAWS; draw++) {
        const trace = tracer.trace(draw, 0);
        const sorted = trace.readings[0].slice().sort();
        const usual = sorted[sorted.length >> 1];
        trace.readings[0].forEach((reading, f) => {
          if (f === trace.windows.spikes[0].from) return;
          readings++;
          const size = 4096 * (reading - usual);
          if (Math.abs(size) > 50) sizes.push(size);
        });
      }
      // Binomial; two in one reading, at 0.1, are a few in a hundred of them.
      const error = 4 * Math.sqrt(share * readings) + 0.06 * share * share * 10 * readings;
      expect(Math.abs(sizes.length - share * readings)).toBeLessThan(error);
      const up = sizes.filter((s) => s > 0).length;
      expect(Math.abs(up - sizes.length / 2)).toBeLessThan(2 * Math.sqrt(sizes.length));
      if (share < 0.05) {
        expect(Math.min(...sizes.map(Math.abs))).toBeGreaterThanOrEqual(98);
        expect(Math.max(...sizes.map(Math.abs))).toBeLessThanOrEqual(302);
      }
    },
  );
});

describe('what is left of the channel read before', () => {
  it('pulls the first reading of each finger towards the finger before it, the last one before the first', () => {
    const fingers = [2, 3, 4].map((i) => ({ ...idealRig().fingers[0], name: defaultRig().fingers[i].name }));
    const clean = createTracer(idealRig({}, { fingers }), SEED);
    const mixed = createTracer(idealRig({}, { fingers, noise: { ...SILENCE, residue: 0.1 } }), SEED);
    const traces = [0, 1, 2].map((finger) => clean.trace(1, finger));
    const own = traces.map((trace) => trace.readings);
    const wrong = new Set(traces.map((trace) => trace.windows.spikes[0].from));
    for (const finger of [0, 1, 2]) {
      const before = own[(finger + 2) % 3];
      const { readings } = mixed.trace(1, finger);
      let furthest = 0;
      let pulled = 0;
      own[finger].forEach((sums, i) => {
        // One reading of each sum is touched, however many there are; all in counts.
        sums.forEach((sum, f) => {
          if (wrong.has(f)) return;
          const pull = 4096 * (readings[i][f] - sum);
          const wanted = 0.1 * 4096 * (before[0][f] - own[finger][0][f]);
          pulled = Math.max(pulled, Math.abs(pull));
          // The fingers may move by some counts during the 32 readings; three roundings.
          if (i === 0) furthest = Math.max(furthest, Math.abs(pull - wanted));
          else furthest = Math.max(furthest, Math.abs(pull - wanted) - 5);
        });
      });
      expect(furthest).toBeLessThan(1.7);
      expect(pulled).toBeGreaterThan(100);
    }
  });
});
