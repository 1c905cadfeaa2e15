import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drag, jump, moves } from '../../../firmware/chain/hysteresis.ts';

const values = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 1, maxLength: 80 });
const half = fc.double({ min: 0, max: 3, noNaN: true });

describe('drag', () => {
  it('turns a sine of amplitude 10 with half-width 1.5 into the loop of mechanical play', () => {
    // Describing function of play, computed from the formula: output amplitude A − h = 8.5, loop area
    // 4h(A − h) = 51.0, fundamental gain 0.9204, lag 10.16 degrees.
    const n = 20_000;
    let held = 0;
    let peak = 0;
    let area = 0;
    let inPhase = 0;
    let behind = 0;
    let last = 0;
    for (let i = 0; i < 2 * n; i++) {
      const angle = (2 * Math.PI * i) / n;
      const level = 10 * Math.sin(angle);
      held = drag(held, level, 1.5);
      // The first turn only brings the loop into its steady course.
      if (i >= n) {
        peak = Math.max(peak, held);
        area += ((held + last) / 2) * (level - 10 * Math.sin((2 * Math.PI * (i - 1)) / n));
        inPhase += (2 / n) * held * Math.sin(angle);
        behind -= (2 / n) * held * Math.cos(angle);
      }
      last = held;
    }
    expect(peak).toBeCloseTo(8.5, 4);
    expect(Math.abs(area)).toBeCloseTo(51, 2);
    expect(Math.hypot(inPhase, behind) / 10).toBeCloseTo(0.9204, 4);
    expect((Math.atan2(behind, inPhase) * 180) / Math.PI).toBeCloseTo(10.16, 2);
  });

  it('is the play operator max(u − h, min(u + h, p)) on any input', () => {
    fc.assert(
      fc.property(values, half, (inputs, h) => {
        let own = 0;
        let play = 0;
        for (const u of inputs) {
          own = drag(own, u, h);
          play = Math.max(u - h, Math.min(u + h, play));
          expect(own).toBeCloseTo(play, 12);
        }
      }),
    );
  });
});

describe('jump', () => {
  it('keeps its value inside the band and takes the input outside', () => {
    let held = 5;
    const output = [5.4, 5.5, 4.5, 5.6, 5.2, 6.1, 6.2, 5.6].map((u) => {
      held = jump(held, u, 0.5);
      return held;
    });
    expect(output).toEqual([5, 5, 5, 5.6, 5.6, 5.6, 6.2, 5.6]);
  });

  it('is never further from its input than half the width, and never changes by less', () => {
    fc.assert(
      fc.property(values, half, (inputs, h) => {
        let held = 0;
        for (const u of inputs) {
          const next = jump(held, u, h);
          expect(Math.abs(next - u)).toBeLessThanOrEqual(h + 1e-12);
          if (next !== held) expect(Math.abs(next - held)).toBeGreaterThanOrEqual(h - 1e-12);
          held = next;
        }
      }),
    );
  });
});

describe('moves', () => {
  it('counts steps larger than half the band in both directions, and no step that is not a number', () => {
    expect([0.5, -0.5, 0.51, -0.51, Number.NaN].map((step) => moves(step, 0.25))).toEqual([
      false,
      false,
      true,
      true,
      false,
    ]);
  });

  it('counts everything, a standstill included, for a negative band', () => {
    expect(moves(0, -1)).toBe(true);
    expect(moves(Number.NaN, -1)).toBe(false);
  });
});
