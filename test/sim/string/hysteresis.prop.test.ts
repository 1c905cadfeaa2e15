import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boucWen } from '../../../sim/string/bouc-wen.ts';
import { dahl, dahlWorkMJ } from '../../../sim/string/dahl.ts';
import { play } from '../../../sim/string/play.ts';
import { prandtlIshlinskii } from '../../../sim/string/prandtl-ishlinskii.ts';
import { preisach, preisachRelays } from '../../../sim/string/preisach.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 2000 : 100;
const inputs = fc.array(evenly(-10, 10), { minLength: 1, maxLength: 20 });
/** Places of extra samples between two inputs: any warp of time that keeps the order. */
const places = fc.array(evenly(0, 1), { maxLength: 4 }).map((list) => list.sort((a, b) => a - b));
const warps = fc.array(places, { minLength: 20, maxLength: 20 });
const SIZE = 12;

/** Runs a model that takes strokes along a path of positions from 0. */
function alongStrokes(history: number[], step: (state: number, stroke: number) => number): number {
  let state = 0;
  history.forEach((to, i) => {
    state = step(state, to - (i === 0 ? 0 : history[i - 1]));
  });
  return state;
}

/** Each model as a function of a whole input history, from the same start. */
const MODELS: [string, (history: number[]) => number][] = [
  ['play', (history) => history.reduce((p, u) => play(p, u, 1.3), 0)],
  [
    'Prandtl-Ishlinskii',
    (history) => {
      const states = new Float64Array(3);
      const step = (u: number) =>
        prandtlIshlinskii(states, Float64Array.of(0.2, 0.5, 0.3), Float64Array.of(0, 1, 2.5), u);
      return history.map(step)[history.length - 1];
    },
  ],
  [
    'Preisach',
    (history) => {
      const relays = preisachRelays(SIZE);
      return history.map((u) => preisach(relays, SIZE, u / 10))[history.length - 1];
    },
  ],
  ['Dahl', (history) => alongStrokes(history, (force, stroke) => dahl(force, stroke, 0.5, 1))],
  ['Bouc-Wen', (history) => alongStrokes(history, (z, stroke) => boucWen(z, stroke, 1, 0.7, 0.2))],
];

/** The same path with more samples on each straight piece. */
function resampled(history: number[], warp: number[][]): number[] {
  const path: number[] = [];
  let from = history[0];
  history.forEach((to, i) => {
    const [low, high] = from < to ? [from, to] : [to, from];
    // Rounding must not carry a sample past the ends of its piece: that would be another path.
    for (const p of warp[i]) path.push(Math.min(high, Math.max(low, from + (to - from) * p)));
    path.push(to);
    from = to;
  });
  return path;
}

describe('rate independence', () => {
  it.each(MODELS)('%s ends the same however densely its path is sampled', (_, model) => {
    fc.assert(
      fc.property(inputs, warps, (history, warp) => {
        expect(model(resampled(history, warp))).toBeCloseTo(model(history), 10);
      }),
      { numRuns },
    );
  });

  it('play ends exactly the same', () => {
    fc.assert(
      fc.property(inputs, warps, evenly(0, 3), (history, warp, h) => {
        const run = (path: number[]) => path.reduce((p, u) => play(p, u, h), 0);
        expect(run(resampled(history, warp))).toBe(run(history));
      }),
      { numRuns },
    );
  });
});

describe('bounds', () => {
  it('keeps play within its half-width of the input', () => {
    fc.assert(
      fc.property(evenly(-10, 10), evenly(-10, 10), evenly(0, 3), (p, u, h) => {
        expect(Math.abs(play(p, u, h) - u)).toBeLessThanOrEqual(h + 1e-12);
      }),
      { numRuns },
    );
  });

  it('keeps Dahl within the Coulomb force', () => {
    fc.assert(
      fc.property(evenly(-1, 1), evenly(-5, 5), evenly(0.1, 50), (share, stroke, stiffness) => {
        expect(Math.abs(dahl(share * 0.7, stroke, stiffness, 0.7))).toBeLessThanOrEqual(0.7);
      }),
      { numRuns },
    );
  });
});

/** Work a force does on a path with many small steps, by the trapezium rule over settled repeats of a loop. */
function loopWork(loop: number[], cycles: number, force: (dx: number) => number): number {
  let work = 0;
  let before = force(0);
  for (let cycle = 0; cycle < cycles; cycle += 1) {
    work = 0;
    for (let i = 0; i < loop.length; i += 1) {
      const to = loop[(i + 1) % loop.length];
      for (let k = 0; k < 40; k += 1) {
        const dx = (to - loop[i]) / 40;
        const after = force(dx);
        work += ((before + after) / 2) * dx;
        before = after;
      }
    }
  }
  return work;
}

describe('energy', () => {
  const loops = fc.array(evenly(-3, 3), { minLength: 2, maxLength: 5 });

  it('Dahl gives none away on a settled loop', () => {
    fc.assert(
      fc.property(loops, evenly(0.2, 5), (loop, stiffness) => {
        let forceN = 0;
        let workMJ = 0;
        for (let cycle = 0; cycle < 40; cycle += 1) {
          workMJ = 0;
          loop.forEach((from, i) => {
            const dx = loop[(i + 1) % loop.length] - from;
            workMJ += dahlWorkMJ(forceN, dx, stiffness, 1);
            forceN = dahl(forceN, dx, stiffness, 1);
          });
        }
        expect(workMJ).toBeGreaterThanOrEqual(-1e-6);
      }),
      { numRuns },
    );
  });

  it('the force of a play on a spring gives none away on a settled loop', () => {
    // Input minus play is the friction force of an elastic slider (stop operator).
    fc.assert(
      fc.property(loops, evenly(0, 2), (loop, h) => {
        let p = loop[0];
        let u = loop[0];
        const force = (dx: number) => {
          u += dx;
          p = play(p, u, h);
          return u - p;
        };
        expect(loopWork(loop, 3, force)).toBeGreaterThanOrEqual(-1e-9);
      }),
      { numRuns },
    );
  });

  it('Bouc-Wen gives none away on a settled loop when beta >= |gamma|', () => {
    fc.assert(
      fc.property(loops, evenly(0.1, 1), evenly(-1, 1), (loop, beta, share) => {
        let z = 0;
        const force = (dx: number) => {
          z = boucWen(z, dx, 1, beta, beta * share);
          return z;
        };
        expect(loopWork(loop, 60, force)).toBeGreaterThanOrEqual(-1e-3);
      }),
      { numRuns: Math.min(numRuns, 200) },
    );
  });
});
