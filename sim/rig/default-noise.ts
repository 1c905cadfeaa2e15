import { entry } from './default-entry.ts';

const KISEL = 'GitHub kisel/esp32_adc_test, 100 nF at the pin';
const IDF164 = 'GitHub espressif/esp-idf#164';
const FADERPUNK =
  'GitHub ATOVproject/faderpunk#556: wander of 16-19 counts at mid travel, 1-2 near the stops';
const SD = 'standard deviation of one reading at rest';
const HUM = 'amplitude of mains hum';
const HUM_HZ = 'mains frequency';
const SHARE = 'share of readings hit by a spike';
const SIZE = 'smallest and largest spike';
const ODD = 'share of even readings that come out odd';
const WANDER = 'slow pick-up at mid travel (sd)';
const RESIDUE = 'share of the previous channel left in a reading';
const MAINS = '50 Hz; write 60 Hz where the mains has that';
const SPIKES = 'sparse isolated spikes, seen by many, counted by few';
const HELD = 'a sampler of 10 pF moves 100 nF at the pin by 0.01 %: none left';
const MUX = 'previous channel read through a source of several kilohm';

/** Noise presets, in counts of a 12-bit reading. */
export const NOISE_DEFAULTS = {
  'noise.quiet.sd': entry(1.1, 'counts', SD, 'measured', `${KISEL}: median of single readings, 150-2700 mV`),
  'noise.quiet.hum': entry(0.5, 'counts', HUM, 'assumed', 'short wires in a common bundle'),
  'noise.quiet.humFrequency': entry(50, 'Hz', HUM_HZ, 'assumed', MAINS),
  'noise.quiet.spikeShare': entry(0.0001, 'share', SHARE, 'assumed', 'radio off, decoupled supply'),
  'noise.quiet.spikes': entry([50, 200], 'counts', SIZE, 'assumed', SPIKES),
  'noise.quiet.oddShare': entry(0, 'share', ODD, 'assumed', 'silicon without that habit'),
  'noise.quiet.wander': entry(0.5, 'counts', WANDER, 'assumed', 'shielded or very short wiper wires'),
  'noise.quiet.residue': entry(0, 'share', RESIDUE, 'computed', HELD),

  'noise.typical.sd': entry(
    6,
    'counts',
    SD,
    'assumed',
    'soldered board with capacitors at the pins, 2-25 counts',
  ),
  'noise.typical.hum': entry(2, 'counts', HUM, 'assumed', 'wires of 20-30 cm up the hand'),
  'noise.typical.humFrequency': entry(50, 'Hz', HUM_HZ, 'assumed', MAINS),
  'noise.typical.spikeShare': entry(0.001, 'share', SHARE, 'assumed', SPIKES),
  'noise.typical.spikes': entry([50, 200], 'counts', SIZE, 'assumed', SPIKES),
  'noise.typical.oddShare': entry(0, 'share', ODD, 'assumed', 'silicon without that habit'),
  'noise.typical.wander': entry(2, 'counts', WANDER, 'assumed', 'a good build; compare the preset noisy'),
  'noise.typical.residue': entry(0, 'share', RESIDUE, 'computed', HELD),

  'noise.noisy.sd': entry(
    15.4,
    'counts',
    SD,
    'assumed',
    `from ${IDF164}: a DevKitC at 3.0 V, where noise is larger than in mid range`,
  ),
  'noise.noisy.hum': entry(4, 'counts', HUM, 'assumed', 'breadboard and loose wires'),
  'noise.noisy.humFrequency': entry(50, 'Hz', HUM_HZ, 'assumed', MAINS),
  'noise.noisy.spikeShare': entry(0.002, 'share', SHARE, 'assumed', SPIKES),
  'noise.noisy.spikes': entry([50, 200], 'counts', SIZE, 'assumed', SPIKES),
  'noise.noisy.oddShare': entry(
    0.7,
    'share',
    ODD,
    'computed',
    `${IDF164}: 85 % of codes were odd = 0.5 + 0.5·0.70`,
  ),
  'noise.noisy.wander': entry(8, 'counts', WANDER, 'assumed', `half of ${FADERPUNK}`),
  'noise.noisy.residue': entry(0.01, 'share', RESIDUE, 'assumed', MUX),

  'noise.rough.sd': entry(
    66.6,
    'counts',
    SD,
    'assumed',
    `from ${IDF164}: an Olimex EVB at 1.0 V and 0 dB, taken over for 11 dB`,
  ),
  'noise.rough.hum': entry(8, 'counts', HUM, 'assumed', 'long loose wires next to a mains adapter'),
  'noise.rough.humFrequency': entry(50, 'Hz', HUM_HZ, 'assumed', MAINS),
  'noise.rough.spikeShare': entry(0.005, 'share', SHARE, 'assumed', SPIKES),
  'noise.rough.spikes': entry([50, 200], 'counts', SIZE, 'assumed', SPIKES),
  'noise.rough.oddShare': entry(
    0.82,
    'share',
    ODD,
    'computed',
    `${IDF164}: 91 % of codes were odd = 0.5 + 0.5·0.82`,
  ),
  'noise.rough.wander': entry(16, 'counts', WANDER, 'assumed', `the whole of ${FADERPUNK}`),
  'noise.rough.residue': entry(0.02, 'share', RESIDUE, 'assumed', MUX),
} as const;
