import { defaultRig, noisePreset } from '../../../sim/rig/default-rig.ts';
import type { Finger, NoiseLevels, Rig } from '../../../sim/rig/rig.ts';
import type { Span } from '../../../sim/study/windows.ts';

/** No noise of any kind. */
export const SILENCE: NoiseLevels = {
  sdCounts: 0,
  humCounts: 0,
  humHz: 50,
  spikeShare: 0,
  spikeCounts: [50, 200],
  oddShare: 0,
  wanderCounts: 0,
  residue: 0,
};

/** A rig with only its index finger, changed as wished. */
export function oneFinger(changes: Partial<Rig> = {}, finger: Partial<Finger> = {}): Rig {
  const rig = defaultRig(changes.board);
  return { ...rig, fingers: [{ ...rig.fingers[1], ...finger }], ...changes };
}

/**
 * A build without noise, play, friction and tolerances, with an even potentiometer, a spring that never lets the
 * string go slack and no capacitor. What is left of a draw: arms, the place of the spool, the chip's reference
 * voltage and the tremor.
 */
export function idealRig(finger: Partial<Finger> = {}, changes: Partial<Rig> = {}): Rig {
  const [usual] = oneFinger(changes).fingers;
  return oneFinger(
    { noise: SILENCE, supply: { volts: 3.3, tolerance: 0, sag: 0 }, ...changes },
    {
      guides: [],
      playMm: 0,
      stringDiameterMm: 0,
      spring: { openTorqueMNm: 60, perTurnMNm: 0, hysteresis: 0 },
      potentiometer: { ...usual.potentiometer, tolerance: 0, linearity: 0, dragMNm: 0 },
      wiring: { ...usual.wiring, seriesTolerance: 0, capacitorF: 0 },
      ...finger,
    },
  );
}

/** A finger that hardly draws any string: its channel rests for the whole trace. */
export function restingRig(changes: Partial<Rig> = {}): Rig {
  return idealRig({ momentArmsMm: [1e-6, 1e-6, 1e-6] }, { noise: noisePreset('quiet'), ...changes });
}

/** Mean, standard deviation and correlation of neighbours, skipping the frames of the wrong readings. */
export function restStatistics(values: ArrayLike<number>, skip: Span[] = []) {
  const wrong = new Set(skip.map((span) => span.from));
  let count = 0;
  let sum = 0;
  for (let f = 0; f < values.length; f++) {
    if (wrong.has(f)) continue;
    sum += values[f];
    count++;
  }
  const mean = sum / count;
  let squares = 0;
  let products = 0;
  for (let f = 0; f < values.length; f++) {
    if (wrong.has(f)) continue;
    squares += (values[f] - mean) ** 2;
    if (f > 0 && !wrong.has(f - 1)) products += (values[f] - mean) * (values[f - 1] - mean);
  }
  return { mean, sd: Math.sqrt(squares / count), lag1: products / squares };
}
