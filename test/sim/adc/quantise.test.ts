import { describe, expect, it } from 'vitest';
import { buildCurveTable, codeOf, countsAt } from '../../../sim/adc/curve.ts';
import {
  codeDensityDnl,
  ditherResidualCounts,
  effectiveBits,
  extraBits,
  idealSnrDb,
  meanSd,
  railCompensated,
} from '../../../sim/adc/quantise.ts';
import { fillGauss } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';

const [k0, k1] = keys(0, 11, 0);
const normal = new Float64Array(400_000);
fillGauss(normal, 0, k0, k1);

describe('ideal converter', () => {
  it('gives a full-scale sine 74.0 ± 0.2 dB (6.02·12 + 1.76)', () => {
    const n = 65_536;
    let signal = 0;
    let error = 0;
    for (let i = 0; i < n; i++) {
      // an odd number of cycles, prime to the length, meets every phase
      const clean = 2047.5 + 2047.5 * Math.sin((2 * Math.PI * 1021 * i) / n);
      signal += (clean - 2047.5) ** 2;
      error += (codeOf(clean) - clean) ** 2;
    }
    expect(Math.abs(10 * Math.log10(signal / error) - 74.0)).toBeLessThan(0.2);
    expect(idealSnrDb(12)).toBeCloseTo(6.02 * 12 + 1.76, 1);
    expect(effectiveBits(62)).toBeCloseTo(10.0, 1); // (62 - 1.76)/6.02
  });

  it('has no differential nonlinearity', () => {
    const ramp = Array.from({ length: 409_600 }, (_, i) => codeOf((i + 0.5) / 100 - 0.5));
    const dnl = codeDensityDnl(ramp, 1, 4094);
    expect(Math.max(...dnl.map(Math.abs))).toBeLessThan(0.011); // one hit in a hundred
  });

  it('shows injected differential nonlinearity within 0.05 LSB', () => {
    const injected: { [code: number]: number } = {
      100: 0.5,
      101: -0.5,
      2048: -1,
      2049: 1,
      3000: 0.25,
      3001: -0.25,
    };
    const edges: number[] = [];
    let edge = 0;
    for (let code = 0; code < 4096; code++) {
      edge += 1 + (injected[code] ?? 0);
      edges.push(edge); // upper edge of the code
    }
    const ramp: number[] = [];
    let code = 0;
    for (let i = 0; i < 409_600; i++) {
      while ((i + 0.5) / 100 >= edges[code]) code++;
      ramp.push(code);
    }
    const dnl = codeDensityDnl(ramp, 1, 4094);
    let worst = 0;
    for (let c = 1; c <= 4094; c++) worst = Math.max(worst, Math.abs(dnl[c - 1] - (injected[c] ?? 0)));
    expect(worst).toBeLessThan(0.05);
  });
});

describe('averaging', () => {
  /** Worst error of the mean of very many readings, over positions between two codes. */
  function worstMeanError(sd: number): number {
    let worst = 0;
    for (let step = 0; step < 64; step++) {
      const at = 1000 + (step + 0.5) / 64;
      let mean = 0;
      // exact expectation: each code's probability, by the normal density summed finely
      let weight = 0;
      for (let z = -6; z <= 6; z += 0.001) {
        const p = Math.exp(-0.5 * z * z);
        mean += p * codeOf(at + sd * z);
        weight += p;
      }
      worst = Math.max(worst, Math.abs(mean / weight - at));
    }
    return worst;
  }

  it('gains nothing on a reading without noise: half a count stays', () => {
    expect(worstMeanError(0)).toBeCloseTo(0.5 - 1 / 128, 2);
    expect(ditherResidualCounts(0)).toBe(0.5);
  });

  // exp(-2π²σ²)/π: 0.0927 at 0.25, 0.00229 at 0.5
  it.each([
    [0.25, 0.0927],
    [0.5, 0.00229],
  ])('with noise of %f counts leaves %f', (sd, residual) => {
    expect(worstMeanError(sd)).toBeCloseTo(residual, 3);
    expect(ditherResidualCounts(sd)).toBeCloseTo(residual, 4);
  });

  it('of 4, 16, 64 readings of white noise follows sd/√N and gains 1, 2, 3 bits (AVR121)', () => {
    for (const [readings, bits] of [
      [4, 1],
      [16, 2],
      [64, 3],
    ]) {
      let squares = 0;
      const groups = Math.floor(normal.length / readings);
      for (let g = 0; g < groups; g++) {
        let sum = 0;
        for (let j = 0; j < readings; j++) sum += codeOf(2000 + 6 * normal[g * readings + j]);
        squares += (sum / readings - 2000) ** 2;
      }
      // four standard errors of a standard deviation
      expect(Math.abs(Math.sqrt(squares / groups) / meanSd(6, readings) - 1)).toBeLessThan(
        4 / Math.sqrt(2 * groups),
      );
      expect(extraBits(readings)).toBe(bits);
    }
    expect(meanSd(6, 64)).toBe(0.75);
  });
});

describe('supply', () => {
  it('3.0303 % lower lowers the reading by 3.03 %; the rail reading repairs it to 0.1 %', () => {
    const table = buildCurveTable('esp32-s3', 11);
    const share = 3.2 / 3.3;
    const wiper = 0.6 * 3.3;
    const rail = 0.5 * 3.3; // through two equal resistors
    const full = countsAt(table, wiper);
    const low = countsAt(table, wiper * share);
    expect(low / full - 1).toBeCloseTo(-0.0303, 4);
    const repaired = railCompensated(
      codeOf(low),
      codeOf(countsAt(table, rail * share)),
      countsAt(table, rail),
    );
    expect(Math.abs(repaired / full - 1)).toBeLessThan(0.001);
  });
});
