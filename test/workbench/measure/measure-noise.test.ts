import { describe, expect, it } from 'vitest';
import type { Rig } from '../../../sim/rig/rig.ts';
import { emptyEvidence } from '../../../workbench/diagnose/evidence.ts';
import { simulatedEvidence } from '../../../workbench/diagnose/simulated-session.ts';
import { measureNoise } from '../../../workbench/measure/measure-noise.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const { rig } = readRig('examples/puppet-right.yaml');
const isLong = process.env.TAUTLINE_VERIFY === '1';

/** What is measured of a session played with known noise; the measuring rig believes something else. */
function measure(noise: Partial<Rig['noise']>, seed: number) {
  const played: Rig = {
    ...rig,
    noise: {
      ...rig.noise,
      sdCounts: 5,
      humCounts: 0,
      spikeShare: 0,
      oddShare: 0,
      wanderCounts: 0,
      residue: 0,
      ...noise,
    },
  };
  const evidence = simulatedEvidence({ rig: played, seed, draw: 0, isCalibrated: false, faults: [] });
  return measureNoise(evidence, rig);
}

describe('noise measured from a guided look', () => {
  it.each(
    (isLong ? [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] : [1]).flatMap((seed) =>
      [3, 8, 20].map((sd) => [sd, seed] as const),
    ),
  )(
    'comes out within 10 %% of the %i counts that were put in (seed %i)',
    (sd, seed) => {
      const measured = measure({ sdCounts: sd }, seed).rig.noise;
      // rounding to whole codes adds 1/12 to the variance
      const truth = Math.sqrt(sd ** 2 + 1 / 12);
      expect(Math.abs(measured.sdCounts / truth - 1)).toBeLessThan(0.1);
      expect([measured.humCounts, measured.spikeShare, measured.oddShare]).toEqual([0, 0, 0]);
    },
    20_000,
  );

  it('finds hum of the mains to 0.3 Hz, and its size to two fifths: at 100 Hz it beats with the frames', () => {
    const { noise } = measure({ sdCounts: 3, humCounts: 12, humHz: 50.2 }, 4).rig;
    // a row of 100 Hz cannot tell 50.2 from 49.8: either is the answer
    expect(Math.min(Math.abs(noise.humHz - 50.2), Math.abs(noise.humHz - 49.8))).toBeLessThan(0.3);
    expect(Math.abs(noise.humCounts / 12 - 1)).toBeLessThan(0.4);
  }, 20_000);

  it('finds spikes, and odd codes', () => {
    const { noise } = measure({ spikeShare: 0.02, spikeCounts: [300, 600], oddShare: 0.7 }, 5).rig;
    expect(noise.spikeShare).toBeGreaterThan(0.014);
    expect(noise.spikeShare).toBeLessThan(0.026);
    expect(Math.abs(noise.oddShare - 0.7)).toBeLessThan(0.1);
  }, 20_000);

  it('says what it replaced, from what, and what it cannot tell', () => {
    const { values, unmeasured } = measure({}, 6);
    expect(values.map(({ path }) => path)).toEqual([
      'noise.sd',
      'noise.hum',
      'noise.spikeShare',
      'noise.oddShare',
    ]);
    expect(values[0]).toMatchObject({ how: 'raw readings at rest of 5 channels' });
    expect(unmeasured.join(' ')).toMatch(/play, friction/);
  }, 20_000);

  it('changes nothing without raw readings, and says how to get them', () => {
    const measured = measureNoise(emptyEvidence(), rig);
    expect(measured.rig).toBe(rig);
    expect(measured.unmeasured[0]).toMatch(/guided look/);
  });
});
