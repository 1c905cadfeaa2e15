import type { NoiseLevels } from '../rig/rig.ts';

export type NoisePreset = 'quiet' | 'typical' | 'noisy' | 'bad';

/**
 * Noise that differs many-fold between builds, in four grades; a recording at rest is better than any of them.
 * Only the standard deviations and the odd codes stand on measurements, all else is assumed.
 * - quiet: 100 nF at the pin, clean supply (measured: kisel/esp32_adc_test, 1.1 counts with rounding)
 * - typical: assumed; near the top of the curve it grows to the 15 counts of the DevKitC in espressif/esp-idf#164
 * - noisy: computed from nine readings of the pycom forum thread "ADC woes" at 0 dB, 4.9 mV
 * - bad: measured, the Olimex board in espressif/esp-idf#164, 66.6 counts at 0 dB
 */
export const NOISE_PRESETS: { [preset in NoisePreset]: NoiseLevels } = {
  quiet: {
    sdCounts: 1.1,
    humCounts: 0.5,
    humHz: 50,
    spikeShare: 0,
    spikeCounts: [50, 200],
    oddShare: 0,
    wanderCounts: 0.5,
    residue: 0,
  },
  typical: {
    sdCounts: 6,
    humCounts: 2,
    humHz: 50,
    spikeShare: 0.001,
    spikeCounts: [50, 200],
    oddShare: 0,
    wanderCounts: 2,
    residue: 0.002,
  },
  noisy: {
    sdCounts: 16,
    humCounts: 6,
    humHz: 50,
    spikeShare: 0.002,
    spikeCounts: [50, 400],
    oddShare: 0.7,
    wanderCounts: 6,
    residue: 0.005,
  },
  bad: {
    sdCounts: 65,
    humCounts: 20,
    humHz: 50,
    spikeShare: 0.005,
    spikeCounts: [100, 900],
    oddShare: 0.8,
    wanderCounts: 18,
    residue: 0.01,
  },
};
