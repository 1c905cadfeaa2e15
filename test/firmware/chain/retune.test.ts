import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newFingerState, startFinger, stepFinger } from '../../../firmware/chain/finger.ts';
import { prepare } from '../../../firmware/chain/prepare.ts';
import type { LowPass } from '../../../firmware/chain/settings.ts';
import { evenly } from '../../sim/evenly.ts';
import { anySettings, plain } from '../../sim/study/any-settings.ts';

const ENDS = { open: 0.7, closed: 0.2 };
const SPAN = 0.5;

/** Time after which a step from 0 to `height` is done by 1 − 1/e, s, linear between frames. */
function timeConstantS(lowPass: LowPass, frameRateHz: number, height: number): number {
  const constants = prepare(plain({ lowPass }), 1 / frameRateHz, ENDS);
  const state = newFingerState();
  startFinger(state, ENDS.open);
  let before = 0;
  for (let frame = 1; frame < 10 * frameRateHz; frame++) {
    stepFinger(state, ENDS.open - height * SPAN, constants);
    const done = (ENDS.open - state.held) / SPAN / height;
    if (done >= 1 - Math.exp(-1)) {
      return (frame - (done - (1 - Math.exp(-1))) / (done - before)) / frameRateHz;
    }
    before = done;
  }
  return Number.POSITIVE_INFINITY;
}

const CUTOFFS_HZ = [0.5, 1, 3, 5];
const LOW_PASSES: [string, (hz: number) => LowPass][] = [
  ['exponential', (cutoffHz) => ({ kind: 'exponential', cutoffHz })],
  ['oneEuro', (minCutoffHz) => ({ kind: 'oneEuro', minCutoffHz, beta: 0, speedCutoffHz: 1 })],
  ['adaptive', (restCutoffHz) => ({ kind: 'adaptive', restCutoffHz, riseHz: 0 })],
];

describe('another frame rate, prepared anew', () => {
  it.each(LOW_PASSES)(
    'keeps the time constant 1/(2π·cut-off) of the %s low-pass within a frame',
    (_, make) => {
      for (const cutoffHz of CUTOFFS_HZ) {
        for (const frameRateHz of [25, 50, 100, 200]) {
          const wantedS = 1 / (2 * Math.PI * cutoffHz);
          const gotS = timeConstantS(make(cutoffHz), frameRateHz, 0.5);
          expect(Math.abs(gotS - wantedS), `${cutoffHz} Hz at ${frameRateHz} Hz`).toBeLessThan(
            1 / frameRateHz,
          );
        }
      }
    },
  );

  it('does not keep the lag of the one euro low-pass on a ramp: it opens the more, the faster the frames', () => {
    // The published filter takes the speed against its own last output, so a lag of L seconds makes v look like
    // v·(1 + L·rate). On a ramp L = 1/(2π·cut-off): 2π·L·(min + beta·v·(1 + L·rate)) = 1.
    const lowPass: LowPass = { kind: 'oneEuro', minCutoffHz: 1, beta: 4, speedCutoffHz: 1 };
    for (const frameRateHz of [50, 100, 200]) {
      const constants = prepare(plain({ lowPass }), 1 / frameRateHz, ENDS);
      const state = newFingerState();
      startFinger(state, ENDS.open);
      let closure = 0;
      for (let frame = 1; frame <= 4 * frameRateHz; frame++) {
        closure = frame / frameRateHz;
        stepFinger(state, ENDS.open - closure * SPAN, constants);
      }
      const lagS = (-5 + Math.sqrt(25 + (16 * frameRateHz) / (2 * Math.PI))) / (8 * frameRateHz);
      expect(closure - (ENDS.open - state.held) / SPAN).toBeCloseTo(lagS, 6);
    }
  });

  it('counts the clip by the frame: a step of so many % at any rate', () => {
    const constants = prepare(plain({ despike: { kind: 'clip', limitPct: 10 } }), 0.02, ENDS);
    const state = newFingerState();
    startFinger(state, ENDS.open);
    stepFinger(state, ENDS.closed, constants);
    expect((ENDS.open - state.held) / SPAN).toBeCloseTo(0.1, 12);
  });
});

describe('settings changed while the hand moves', () => {
  const reading = evenly(0, 1);

  it('never throw the output beyond what it, the filter and the last readings lie between', () => {
    fc.assert(
      fc.property(
        anySettings,
        anySettings,
        fc.array(reading, { minLength: 3, maxLength: 30 }),
        fc.array(reading, { minLength: 1, maxLength: 5 }),
        (first, second, before, after) => {
          // The number of readings is part of the structure: it changes with a restart only.
          const old = prepare(first, 0.01, ENDS);
          const fresh = prepare({ ...second, oversampling: first.oversampling }, 0.01, ENDS);
          const n = first.oversampling;
          const state = newFingerState();
          startFinger(state, n * before[0]);
          for (const x of before.slice(1)) stepFinger(state, n * x, old);
          for (const x of after) {
            const hull = [state.held, state.level, state.before1, state.before2, n * x];
            stepFinger(state, n * x, fresh);
            expect(state.held).toBeGreaterThanOrEqual(Math.min(...hull) - 1e-12);
            expect(state.held).toBeLessThanOrEqual(Math.max(...hull) + 1e-12);
          }
        },
      ),
    );
  });

  it('leave a finger at rest where it is', () => {
    fc.assert(
      fc.property(anySettings, anySettings, reading, (first, second, x) => {
        const n = first.oversampling;
        const state = newFingerState();
        startFinger(state, n * x);
        for (let f = 0; f < 5; f++) stepFinger(state, n * x, prepare(first, 0.01, ENDS));
        for (let f = 0; f < 5; f++) {
          stepFinger(state, n * x, prepare({ ...second, oversampling: n }, 0.01, ENDS));
          expect(state.held).toBeCloseTo(n * x, 12);
        }
      }),
    );
  });
});
