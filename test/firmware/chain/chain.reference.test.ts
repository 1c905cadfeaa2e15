import { OneEuroFilter } from '1eurofilter';
import { describe, expect, it } from 'vitest';
import { newFingerState, putWord, startFinger, stepFinger } from '../../../firmware/chain/finger.ts';
import { prepare } from '../../../firmware/chain/prepare.ts';
import type { LowPass, Settings } from '../../../firmware/chain/settings.ts';
import { type Ends, readingOfWord } from '../../../firmware/chain/word-scale.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';

const PERIOD_S = 0.01;
// Closing lowers the reading of the second pair.
const BOTH_WAYS: Ends[] = [
  { open: 0.11, closed: 0.83 },
  { open: 0.83, closed: 0.11 },
];

function settingsOf(lowPass: LowPass, parts: Partial<Settings>): Settings {
  return { oversampling: 8, despike: { kind: 'none' }, hysteresis: { kind: 'none' }, lowPass, ...parts };
}

/** Runs closures through the whole chain of one finger; gives smoothed closures back. */
function run(closures: number[], settings: Settings, ends: Ends): { closure: number[]; words: number[] } {
  const constants = prepare(settings, PERIOD_S, ends);
  const state = newFingerState();
  const store = new Uint16Array(1);
  const words: number[] = [];
  const closure = closures.map((value, i) => {
    const reading = settings.oversampling * (ends.open + value * (ends.closed - ends.open));
    if (i === 0) startFinger(state, reading);
    else stepFinger(state, reading, constants);
    putWord(store, 0, state, constants);
    words.push(store[0]);
    return (state.held / settings.oversampling - ends.open) / (ends.closed - ends.open);
  });
  return { closure, words };
}

const [K0, K1] = keys(8, 1, 0);
const noisyGrasp = Array.from({ length: 300 }, (_, i) => {
  const tau = Math.min(1, Math.max(0, (i - 100) / 20));
  return tau * tau * tau * (10 - 15 * tau + 6 * tau * tau) + 0.01 * gaussAt(i, K0, K1);
});

describe.each(BOTH_WAYS)('chain of one finger with ends $open and $closed', (ends) => {
  it("with one euro settings in closure units agrees with the authors' program run on closure", () => {
    const lowPass: LowPass = { kind: 'oneEuro', minCutoffHz: 1.5, beta: 1, speedCutoffHz: 1 };
    const reference = new OneEuroFilter(1 / PERIOD_S, 1.5, 1, 1);
    const { closure } = run(noisyGrasp, settingsOf(lowPass, {}), ends);
    noisyGrasp.forEach((value, i) => {
      expect(closure[i]).toBeCloseTo(reference.filter(value, undefined), 12);
    });
  });

  it('with an exponential low-pass of 5 Hz lags a steady movement by (1 − gain)/gain = 2.735 frames', () => {
    const ramp = Array.from({ length: 400 }, (_, i) => 0.002 * i);
    const { closure } = run(ramp, settingsOf({ kind: 'exponential', cutoffHz: 5 }, {}), ends);
    // Gain 0.267731, see exponential.test.ts.
    expect((ramp[399] - closure[399]) / 0.002).toBeCloseTo(2.7351, 3);
  });

  it('stores the words 6553 and 58982 at the captured ends and the nearest word between', () => {
    const travel = [0, 1, 0.5, 0.123, 0.987];
    const { words } = run(travel, settingsOf({ kind: 'none' }, {}), ends);
    expect(words.slice(0, 2)).toEqual([6553, 58982]);
    travel.forEach((value, i) => {
      expect(Math.abs(words[i] - (6553 + value * 52429))).toBeLessThanOrEqual(0.5 + 1e-6);
      const reading = readingOfWord(words[i], ends);
      expect(Math.abs((reading - ends.open) / (ends.closed - ends.open) - value)).toBeLessThan(0.51 / 52429);
    });
  });

  it('with a clip of 5 % lets one wrong reading move an unfiltered chain by 5 % of closure', () => {
    const spiked = [0.4, 0.4, 0.9, 0.4, 0.4];
    const { closure } = run(
      spiked,
      settingsOf({ kind: 'none' }, { despike: { kind: 'clip', limitPct: 5 } }),
      ends,
    );
    [0.4, 0.4, 0.45, 0.4, 0.4].forEach((value, i) => {
      expect(closure[i]).toBeCloseTo(value, 12);
    });
  });

  it('with the median lets a single wrong reading pass unseen', () => {
    const spiked = [0.4, 0.4, 0.9, 0.4, 0.4, -0.3, 0.4, 0.4];
    const { closure } = run(spiked, settingsOf({ kind: 'none' }, { despike: { kind: 'median' } }), ends);
    for (const value of closure) expect(value).toBeCloseTo(0.4, 12);
  });

  it.each([
    ['still', [0.5, 0.5, 0.5, 0.53, 0.53, 0.488]],
    ['drag', [0.5, 0.5, 0.5, 0.51, 0.51, 0.508]],
    ['step', [0.5, 0.5, 0.5, 0.53, 0.53, 0.488]],
  ] as const)('with a %s band of 4 %% holds within 2 %% and then follows in its way', (kind, expected) => {
    const inputs = [0.5, 0.519, 0.481, 0.53, 0.511, 0.488];
    const { closure } = run(
      inputs,
      settingsOf({ kind: 'none' }, { hysteresis: { kind, widthPct: 4 } }),
      ends,
    );
    expected.forEach((value, i) => {
      expect(closure[i]).toBeCloseTo(value, 12);
    });
  });
});
