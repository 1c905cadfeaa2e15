import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividerVolts, sourceOhm } from '../../../sim/pot/divider.ts';
import { highestSourceAt, highestSourceOhm, worstLoading } from '../../../sim/pot/highest-source.ts';
import type { Brakes } from '../../../sim/rig/rig.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { brakePlan } from '../../../sim/sizing/power/brake-plan.ts';
import { settlingOf } from '../../../sim/sizing/wiring/wiring-settling.ts';
import { evenly } from '../evenly.ts';
import { rigWith } from './rigs.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 10_000 : 300;
const part = evenly(0, 2e4);
const pot = evenly(500, 1e5);
const pull = fc.constantFrom(0, 2e4, 1e5, 1e6);

describe('the place of the highest resistance', () => {
  it('has more than any other place of the travel', () => {
    fc.assert(
      fc.property(evenly(0, 1), pot, part, part, pull, (x, potOhm, topOhm, bottomOhm, pullDownOhm) => {
        const at = highestSourceAt(potOhm, topOhm, bottomOhm);
        expect(at >= 0 && at <= 1).toBe(true);
        const most = highestSourceOhm(potOhm, topOhm, bottomOhm, pullDownOhm);
        expect(sourceOhm(x, potOhm, topOhm, bottomOhm, pullDownOhm)).toBeLessThanOrEqual(most * (1 + 1e-12));
      }),
      { numRuns },
    );
  });
});

describe('the worst loading', () => {
  it('is no less than what the circuit loses anywhere', () => {
    fc.assert(
      fc.property(
        evenly(0, 1),
        pot,
        part,
        part,
        evenly(1e4, 1e6),
        (x, potOhm, topOhm, bottomOhm, loadOhm) => {
          const at = (load: number) => dividerVolts(x, 1, potOhm, topOhm, bottomOhm, load);
          const worst = worstLoading(potOhm, topOhm, bottomOhm, loadOhm).share;
          // a thousand places are looked at: the parabola between two of them is less than 1e-5 higher
          expect(at(0) - at(loadOhm)).toBeLessThanOrEqual(worst * (1 + 1e-5) + 1e-9);
        },
      ),
      { numRuns },
    );
  });
});

describe('the proposed capacitor', () => {
  it('settles in half a frame whatever the parts turn out to be, and the next larger one of E6 may not', () => {
    const draw = evenly(-1, 1);
    fc.assert(
      fc.property(
        evenly(10, 1000),
        pot,
        part,
        part,
        pull,
        evenly(0, 1),
        draw,
        draw,
        draw,
        (frameRateHz, resistanceOhm, topOhm, bottomOhm, pullDownOhm, x, p, t, b) => {
          const wiring = { topOhm, bottomOhm, pullDownOhm };
          const rig = { ...rigWith(wiring, { resistanceOhm }), frameRateHz };
          const { proposedF } = settlingOf(rig, rig.fingers[0]!);
          const halfS = 0.5 / frameRateHz;
          // 13 halvings: a full step is then within half a code of 12 bits; 20 % potentiometer, 5 % resistors
          const settlingS = (p: number, t: number, b: number, x: number, farad: number) =>
            13 *
            Math.LN2 *
            farad *
            sourceOhm(
              x,
              resistanceOhm * (1 + 0.2 * p),
              topOhm * (1 + 0.05 * t),
              bottomOhm * (1 + 0.05 * b),
              pullDownOhm,
            );
          if (proposedF !== null) expect(settlingS(p, t, b, x, proposedF)).toBeLessThanOrEqual(halfS);
          if (proposedF !== null && proposedF < 1e-6) {
            // steps of E6 are at most 1.54
            let most = 0;
            for (let i = 0; i <= 100; i++)
              most = Math.max(most, settlingS(1, 1, 1, i / 100, 1.55 * proposedF));
            expect(most).toBeGreaterThan(halfS * 0.999);
          }
        },
      ),
      { numRuns },
    );
  });
});

describe('a plan of brakes', () => {
  it('is accepted only with a clutch of at most 10 N, a cut-off and a supply of its own', () => {
    const plan = fc.record({
      pins: fc.constantFrom<number[]>([25], [25, 26], [25, 26, 27, 18, 19]),
      stallA: evenly(0.05, 3),
      supply: fc.constantFrom('own' as const, 'cell' as const),
      hasCutOff: fc.boolean(),
      clutchN: fc.option(evenly(1, 30), { nil: undefined }),
      supplyA: evenly(0.1, 20),
    });
    fc.assert(
      fc.property(plan, ({ clutchN, ...others }) => {
        const brakes: Brakes = clutchN === undefined ? others : { ...others, clutchN };
        const isSafe = clutchN !== undefined && clutchN <= 10 && others.hasCutOff && others.supply === 'own';
        const { lacks, margins } = brakePlan(brakes, 0.5);
        expect(lacks.length === 0).toBe(isSafe);
        const isStrong = others.supplyA >= others.pins.length * others.stallA;
        expect(margins.every((margin) => verdictOf(margin) !== 'no')).toBe(isSafe && isStrong);
      }),
      { numRuns },
    );
  });
});
