import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultRig, NOISE_PRESETS, noisePreset } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import { createTracer } from '../../../sim/study/trace.ts';
import type { Trace } from '../../../sim/study/trace-types.ts';
import { evenly } from '../evenly.ts';

const RUNS = process.env.TAUTLINE_VERIFY === '1' ? 200 : 12;
const FULL_SCALE = 4095 / 4096;
const COUNTS = [1, 2, 4, 8, 16, 32];

/** Rigs of two fingers, of every board, noise, wear and frame rate. */
const anyRig: fc.Arbitrary<Rig> = fc
  .record({
    board: fc.constantFrom('esp32', 'esp32-s3', 'esp32-c3' as const),
    preset: fc.constantFrom(...NOISE_PRESETS),
    frameRateHz: fc.constantFrom(25, 50, 100, 150),
    scale: evenly(0.8, 1.2),
    usedCycles: fc.constantFrom(0, 8000, 25_000),
    playMm: evenly(0, 1),
    capacitorF: fc.constantFrom(0, 1e-7, 1e-6),
    openTorqueMNm: evenly(1, 15),
    calibrationPoints: fc.constantFrom(2, 3, 5),
    spoolRadiusMm: fc.constantFrom(7, 15, 25),
  })
  .map(({ board, preset, frameRateHz, scale, usedCycles, playMm, capacitorF, openTorqueMNm, ...rest }) => {
    const rig = defaultRig(board);
    const fingers = rig.fingers.slice(0, 2).map((f) => ({
      ...f,
      playMm,
      spoolRadiusMm: rest.spoolRadiusMm,
      spring: { ...f.spring, openTorqueMNm },
      wiring: { ...f.wiring, capacitorF },
      potentiometer: { ...f.potentiometer, usedCycles },
    }));
    const { calibrationPoints } = rest;
    return {
      ...rig,
      noise: noisePreset(preset),
      frameRateHz,
      fingers,
      calibrationPoints,
      hand: { ...rig.hand, scale },
    };
  });

const anySeed = fc.integer();
const anyDraw = fc.nat(5000);

/** Everything in a trace as text: equal text, equal bits. */
function bitsOf(trace: Trace): string {
  const { readings, truth, closureTable, ...rest } = trace;
  const bytes = [...readings, truth, closureTable].map((a) =>
    Buffer.from(a.buffer, a.byteOffset, a.byteLength).toString('latin1'),
  );
  return JSON.stringify(rest) + bytes.join();
}

describe('a trace', () => {
  it('depends on rig, seed, draw and finger alone: same bits in any order, in new or used arrays', () => {
    fc.assert(
      fc.property(anyRig, anySeed, anyDraw, (rig, seed, draw) => {
        const wanted = bitsOf(createTracer(rig, seed).trace(draw, 1));
        const tracer = createTracer(rig, seed);
        tracer.trace(draw + 1, 0);
        const other = tracer.trace(draw, 0);
        expect(bitsOf(tracer.trace(draw, 1))).toBe(wanted);
        expect(bitsOf(tracer.trace(draw, 1, other))).toBe(wanted);
      }),
      { numRuns: RUNS },
    );
  });

  it('is another one for another draw, finger or seed', () => {
    fc.assert(
      fc.property(anyRig, anySeed, anyDraw, (rig, seed, draw) => {
        const tracer = createTracer(rig, seed);
        const all = [
          tracer.trace(draw, 0),
          tracer.trace(draw, 1),
          tracer.trace(draw + 1, 0),
          createTracer(rig, seed + 1).trace(draw, 0),
        ];
        for (const part of ['truth', 'closureTable'] as const) {
          expect(new Set(all.map((t) => t[part].slice(0, 800).join())).size).toBeGreaterThan(2);
        }
        expect(new Set(all.map((t) => t.readings[5].join())).size).toBe(4);
      }),
      { numRuns: RUNS },
    );
  });

  it('reads whole counts within the scale, and no numbers that are none', () => {
    fc.assert(
      fc.property(anyRig, anySeed, anyDraw, (rig, seed, draw) => {
        const trace = createTracer(rig, seed).trace(draw, 0);
        trace.readings.forEach((sums, i) => {
          const counts = Array.from(sums, (sum) => sum * 4096);
          expect(counts.findIndex((c) => !Number.isInteger(c))).toBe(-1);
          expect(Math.min(...counts)).toBeGreaterThanOrEqual(0);
          expect(Math.max(...counts)).toBeLessThanOrEqual(COUNTS[i] * 4095);
        });
        expect(trace.ends.open).toBeGreaterThanOrEqual(0);
        expect(trace.ends.closed).toBeLessThanOrEqual(FULL_SCALE);
        expect(trace.ends.closed - trace.ends.open).toBeGreaterThanOrEqual(39.9 / 4096);
        const table = trace.closureTable;
        expect(table.findIndex((c, i) => !(c >= 0 && c <= 1) || (i > 0 && c < table[i - 1]))).toBe(-1);
      }),
      { numRuns: RUNS },
    );
  });

  it('sums readings that are part of each other: 2N of them are N and N earlier ones', () => {
    fc.assert(
      fc.property(anyRig, anySeed, anyDraw, (rig, seed, draw) => {
        // What is left of the channel read before hits the earliest reading of each burst, so leave it out.
        const clean = { ...rig, noise: { ...rig.noise, residue: 0 } };
        const { readings } = createTracer(clean, seed).trace(draw, 0);
        for (let i = 1; i < COUNTS.length; i++) {
          const earlier = Array.from(readings[i], (sum, f) => sum - readings[i - 1][f]);
          expect(Math.min(...earlier)).toBeGreaterThanOrEqual(0);
          expect(Math.max(...earlier)).toBeLessThanOrEqual((COUNTS[i] / 2) * FULL_SCALE);
        }
      }),
      { numRuns: RUNS },
    );
  });
});
