import { OneEuroFilter } from '1eurofilter';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oneEuroRise, restBase, smoothingGain } from '../../../firmware/chain/constants.ts';
import { oneEuro, oneEuroSpeed } from '../../../firmware/chain/one-euro.ts';

/** Filters as the chain does: the first value is taken as it is, then speed, then level. */
function run(
  inputs: number[],
  rateHz: number,
  minCutoffHz: number,
  beta: number,
  speedCutoffHz: number,
  span: number,
): number[] {
  const periodS = 1 / rateHz;
  const base = restBase(minCutoffHz, periodS);
  const rise = oneEuroRise(beta, periodS, span);
  const speedGain = smoothingGain(speedCutoffHz, periodS);
  let level = inputs[0] * span;
  let speed = 0;
  return inputs.map((input, i) => {
    if (i > 0) {
      const step = input * span - level;
      speed = oneEuroSpeed(speed, step, rateHz, speedGain);
      level = oneEuro(level, step, speed, base, rise);
    }
    return level / span;
  });
}

// Ground truth that the authors publish with their code (GitHub casiez/OneEuroFilter): 120 Hz, minimum cut-off
// 1 Hz, beta 0.1, speed cut-off 1 Hz.
const INPUTS = [-0.0385099, -0.0280664, 0.048622, 0.111498, 0.053026, 0.120548];
const TRUTH = [-0.0385099, -0.0379872, -0.0334427, -0.0252696, -0.0207099, -0.0119912];

describe('one euro filter', () => {
  it('gives the six values that its authors publish', () => {
    run(INPUTS, 120, 1, 0.1, 1, 1).forEach((value, i) => {
      expect(Math.abs(value - TRUTH[i])).toBeLessThan(1e-7);
    });
  });

  it("agrees with its authors' program on any input and any settings, in any unit of reading", () => {
    const settings = fc.record({
      rateHz: fc.double({ min: 20, max: 500, noNaN: true }),
      minCutoffHz: fc.double({ min: 0.1, max: 20, noNaN: true }),
      beta: fc.double({ min: 0, max: 5, noNaN: true }),
      speedCutoffHz: fc.double({ min: 0.2, max: 10, noNaN: true }),
      span: fc.double({ min: 0.05, max: 40, noNaN: true }),
    });
    const inputs = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: 1, maxLength: 80 });
    fc.assert(
      fc.property(inputs, settings, (values, s) => {
        const reference = new OneEuroFilter(s.rateHz, s.minCutoffHz, s.beta, s.speedCutoffHz);
        const own = run(values, s.rateHz, s.minCutoffHz, s.beta, s.speedCutoffHz, s.span);
        values.forEach((value, i) => {
          expect(own[i]).toBeCloseTo(reference.filter(value, undefined), 9);
        });
      }),
    );
  });

  it('treats both directions alike', () => {
    const up = run(INPUTS, 100, 1.5, 1, 1, 1);
    const down = run(
      INPUTS.map((x) => -x),
      100,
      1.5,
      1,
      1,
      1,
    );
    expect(down).toEqual(up.map((y) => -y));
  });
});
