import { describe, expect, it } from 'vitest';
import { boucWen, boucWenLimit } from '../../../sim/string/bouc-wen.ts';
import { dahl, dahlWorkMJ } from '../../../sim/string/dahl.ts';
import { play } from '../../../sim/string/play.ts';
import { prandtlIshlinskii } from '../../../sim/string/prandtl-ishlinskii.ts';
import { preisach, preisachRelays } from '../../../sim/string/preisach.ts';

describe('play', () => {
  it('swings A - h, encloses 4 h (A - h), and shifts the fundamental by 10.16 deg', () => {
    // A 10, h 1.5: closed form of the backlash loop; gain and lag of its first harmonic computed.
    const n = 20000;
    let p = 0;
    let [previous, uBefore] = [0, 0];
    let [most, area, inPhase, quadrature] = [0, 0, 0, 0];
    for (let i = 0; i <= 2 * n; i += 1) {
      const angle = (2 * Math.PI * i) / n;
      const u = 10 * Math.sin(angle);
      previous = p;
      p = play(p, u, 1.5);
      if (i <= n) {
        uBefore = u;
        continue;
      }
      most = Math.max(most, p);
      area += ((u + uBefore) / 2) * (p - previous);
      inPhase += (2 / n) * p * Math.sin(angle);
      quadrature += (2 / n) * p * Math.cos(angle);
      uBefore = u;
    }
    expect(most).toBeCloseTo(8.5, 9);
    expect(Math.abs(area)).toBeCloseTo(51, 2);
    expect(Math.hypot(inPhase, quadrature) / 10).toBeCloseTo(0.9204, 4);
    expect((Math.atan2(-quadrature, inPhase) * 180) / Math.PI).toBeCloseTo(10.16, 2);
  });

  it('passes everything at zero width and nothing inside its width', () => {
    expect(play(3, 7, 0)).toBe(7);
    expect(play(3, 3.9, 1)).toBe(3);
    expect(play(3, 4.5, 1)).toBe(3.5);
    expect(play(3, 1, 1)).toBe(2);
  });
});

describe('Prandtl-Ishlinskii sum', () => {
  it('follows the hand-worked sequence', () => {
    // Weights 1/2 at h 1 and 2, each value worked by hand from the play rule.
    const states = new Float64Array(2);
    const outputs = [5, 2, 4, 5, 9, 2, 5, 2].map((u) =>
      prandtlIshlinskii(states, Float64Array.of(0.5, 0.5), Float64Array.of(1, 2), u),
    );
    expect(outputs).toEqual([3.5, 3, 3, 3.5, 7.5, 3.5, 4, 3.5]);
  });
});

describe('Preisach with even weight', () => {
  const size = 120;

  it('reads -0.5 at zero coming up and +0.5 coming down, and encloses 4/3', () => {
    // Closed forms: up -1 + (1+u)^2/2, down 1 - (1-u)^2/2, area between them 4/3.
    const relays = preisachRelays(size);
    const n = 200;
    let area = 0;
    let [rising, falling] = [NaN, NaN];
    for (let i = 0; i <= n; i += 1) {
      const u = (2 * i) / n - 1;
      const y = preisach(relays, size, u);
      area -= (2 / n) * y * (i === 0 || i === n ? 0.5 : 1);
      if (i === n / 2) rising = y;
    }
    for (let i = n; i >= 0; i -= 1) {
      const u = (2 * i) / n - 1;
      const y = preisach(relays, size, u);
      area += (2 / n) * y * (i === 0 || i === n ? 0.5 : 1);
      if (i === n / 2) falling = y;
    }
    expect(Math.abs(rising + 0.5)).toBeLessThan(0.005);
    expect(Math.abs(falling - 0.5)).toBeLessThan(0.005);
    expect(Math.abs(area / (4 / 3) - 1)).toBeLessThan(0.01);
  });

  it('forgets a small loop once the input passes its turning points (wiping out)', () => {
    const plain = preisachRelays(size);
    const looped = preisachRelays(size);
    for (const u of [0.7, -0.4, 0.9]) preisach(plain, size, u);
    for (const u of [0.7, -0.4, 0.3, -0.1, 0.2, 0.9]) preisach(looped, size, u);
    expect(looped).toEqual(plain);
  });

  it('draws minor loops of one shape whatever came before (congruency)', () => {
    const heights = [0.9, -0.6].map((start) => {
      const relays = preisachRelays(size);
      for (const u of start > 0 ? [1, start, -0.3] : [start, 0.3, -0.3]) preisach(relays, size, u);
      const low = preisach(relays, size, -0.3);
      return preisach(relays, size, 0.3) - low;
    });
    expect(heights[0]).toBeCloseTo(heights[1], 12);
    expect(heights[0]).toBeGreaterThan(0.1);
  });
});

describe('Dahl friction', () => {
  /** Swings to +-0.4 mm until settled (stiffness 5 N/mm, 1 N), each stroke cut into steps. */
  function settled(steps: number): { forceN: number; workMJ: number } {
    let forceN = 0;
    let workMJ = 0;
    for (let stroke = 0; stroke < 21; stroke += 1) {
      if (stroke === 19) workMJ = 0;
      const stepMm = ((stroke % 2 ? -1 : 1) * (stroke === 0 ? 0.4 : 0.8)) / steps;
      for (let i = 0; i < steps; i += 1) {
        workMJ += dahlWorkMJ(forceN, stepMm, 5, 1);
        forceN = dahl(forceN, stepMm, 5, 1);
      }
    }
    return { forceN, workMJ };
  }

  it.each([1, 7, 500])(
    'settles to Fc tanh(sA/Fc) and loses 4 Fc (A - Fmax/s) a cycle in %d steps',
    (steps) => {
      const { forceN, workMJ } = settled(steps);
      expect(forceN).toBeCloseTo(0.96403, 5);
      expect(workMJ).toBeCloseTo(0.82878, 5);
    },
  );

  it('agrees with a plain numerical integration of its equation', () => {
    let forceN = -0.3;
    const n = 200000;
    for (let i = 0; i < n; i += 1) forceN += (5 * (1 - forceN) * 0.5) / n;
    expect(dahl(-0.3, 0.5, 5, 1)).toBeCloseTo(forceN, 5);
  });

  it('does not remember its turning points: 0.4, 0.2, 0.4 comes back to 0.530', () => {
    const top = dahl(0.96403, -0.2, 5, 1);
    expect(dahl(top, 0.2, 5, 1)).toBeCloseTo(0.53, 3);
  });
});

describe('Bouc-Wen', () => {
  it('reaches 1 - 1/e after one unit of stroke', () => {
    // A 1, beta = gamma = 0.5: dz/dx = 1 - z.
    expect(boucWen(0, 1, 1, 0.5, 0.5)).toBeCloseTo(0.63212, 5);
    expect(boucWen(0, -1, 1, 0.5, 0.5)).toBeCloseTo(-0.63212, 5);
  });

  it('approaches A / (beta + gamma) and never passes it', () => {
    const limit = boucWenLimit(1, 0.7, 0.2);
    expect(limit).toBeCloseTo(1 / 0.9, 12);
    expect(boucWen(0, 50, 1, 0.7, 0.2)).toBeCloseTo(limit, 9);
    expect(boucWen(0, 3, 1, 0.7, 0.2)).toBeLessThan(limit);
  });

  it.each([
    [0.7, 0.2],
    [0.5, 0.5],
    [0.4, 0.6],
  ])('agrees with a plain numerical integration across zero, beta %d gamma %d', (beta, gamma) => {
    let z = -0.8;
    const n = 400000;
    for (let i = 0; i < n; i += 1) z += ((1 - beta * z - gamma * Math.abs(z)) * 2) / n;
    expect(boucWen(-0.8, 2, 1, beta, gamma)).toBeCloseTo(z, 5);
    expect(boucWen(0.8, -2, 1, beta, gamma)).toBeCloseTo(-z, 5);
  });
});
