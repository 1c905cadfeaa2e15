import { FINGER_NAMES, type NoiseLevels, type Rig } from '../../sim/rig/rig.ts';
import type { Evidence } from '../diagnose/evidence.ts';
import { nameHum } from '../diagnose/features/spectrum.ts';
import { medianOf } from '../diagnose/features/statistics.ts';
import { lookAtRaw, type RawLook } from '../diagnose/raw-look.ts';

/** One value of the rig that a recording tells. */
export interface MeasuredValue {
  /** Where the rig file says it: `noise.sd`. */
  path: string;
  assumed: string;
  measured: string;
  /** From what. */
  how: string;
}

export interface MeasuredRig {
  /** The rig with the measured values in place of the assumed ones. */
  rig: Rig;
  values: MeasuredValue[];
  /** What the recording does not tell, and what would. */
  unmeasured: string[];
}

/** A tone stands out from so many times the floor; see the diagnosis. Assumed. */
const TONE_OVER_FLOOR = 25;
/** Even codes are half of all: more odd ones than this are a habit of the chip. Assumed: five sigma at 500 readings. */
const LEAST_ODD = 0.61;
/** Share of spikes below which there are none. */
const LEAST_SPIKES = 1e-4;

/**
 * Noise of a build from raw readings at rest, in place of the presets. Single readings, because smoothed frames
 * cannot show what is smoothed away.
 * @param evidence of a guided look: raw frames of resting channels
 */
export function measureNoise(evidence: Evidence, rig: Rig): MeasuredRig {
  const looks = FINGER_NAMES.flatMap((name, slot): RawLook[] => {
    const rows = evidence.rawRest[slot];
    const isWired = rig.fingers.some((finger) => finger.name === name);
    return isWired && rows && rows.timesS.length > 40 ? [lookAtRaw(rows, rig)] : [];
  });
  if (looks.length === 0) {
    return {
      rig,
      values: [],
      unmeasured: [
        'The noise: there are no raw readings at rest in it. Record the guided look of the workbench (view Diagnose) while it runs.',
      ],
    };
  }
  const { noise } = rig;
  const measured: NoiseLevels = { ...noise };
  const values: MeasuredValue[] = [];
  const from = `raw readings at rest of ${looks.length} channel${looks.length === 1 ? '' : 's'}`;
  const put = (path: string, key: keyof NoiseLevels, value: number, words: (value: number) => string) => {
    values.push({ path, assumed: words(noise[key] as number), measured: words(value), how: from });
    (measured[key] as number) = value;
  };
  const counts = (value: number) => `${value.toFixed(2)} counts`;
  const share = (value: number) => `${(100 * value).toFixed(value < 0.01 ? 3 : 1)} %`;

  put('noise.sd', 'sdCounts', medianOf(looks.map(({ ownSd }) => ownSd)), counts);

  const tones = looks.flatMap(({ tone, toneRateHz }) =>
    tone && tone.overFloor > TONE_OVER_FLOOR ? [{ ...tone, rateHz: toneRateHz }] : [],
  );
  // Hum is common to most channels; a tone of one alone is something else.
  if (tones.length * 2 > looks.length) {
    put('noise.hum', 'humCounts', medianOf(tones.map(({ amplitude }) => amplitude)), counts);
    const hz = nameHum(medianOf(tones.map(({ seenHz }) => seenHz)), tones[0]!.rateHz).likelyHz[0]!;
    put('noise.humFrequency', 'humHz', hz, (value) => `${value.toFixed(1)} Hz`);
  } else put('noise.hum', 'humCounts', 0, counts);

  const spikes = looks.reduce((sum, { isolated }) => sum + isolated.share, 0) / looks.length;
  put('noise.spikeShare', 'spikeShare', spikes < LEAST_SPIKES ? 0 : spikes, share);
  const odd = medianOf(looks.map(({ oddShare }) => oddShare));
  // Half of the even codes are odd by chance already: share s of them turned makes (1 + s) / 2 of all.
  put('noise.oddShare', 'oddShare', odd < LEAST_ODD ? 0 : Math.min(1, 2 * odd - 1), share);
  return {
    rig: { ...rig, noise: measured },
    values,
    unmeasured: [
      'Slow pick-up, play, friction and the parts’ tolerances stay as the rig file says: one hand alone does not tell them apart from its own movement.',
    ],
  };
}
