import { describe, expect, it } from 'vitest';
import { nextToggle, toggleDwell } from '../../../../firmware/gesture/toggle.ts';
import { gaussAt } from '../../../../sim/seed/gauss.ts';
import { keys } from '../../../../sim/seed/mix.ts';
import { toggleRate } from '../../../../sim/study/stats/toggle-rate.ts';
import { toggleRateWithDwell } from '../../../../sim/study/stats/toggle-rate-dwell.ts';

const LONG = process.env.TAUTLINE_VERIFY === '1';

describe('toggleRateWithDwell', () => {
  it('without dwell is the plain rate', () => {
    expect(toggleRateWithDwell(2, 1, 0.4, 0.3, 0)).toBe(toggleRate(2, 1, 0.4, 0.3));
  });

  it('on white noise is the rate of runs of independent trials', () => {
    // Mean wait for n in a row: (1 − p^n) / ((1 − p) p^n) (Feller, vol. 1, XIII.7); p = Q(1), Q(1.5), Q(2.5)
    // from mpmath.
    const wait = (p: number, n: number): number => (1 - p ** n) / ((1 - p) * p ** n);
    expect(toggleRateWithDwell(1, 1, 0, 0, 1) * wait(0.158655253931457, 2)).toBeCloseTo(1, 9);
    expect(toggleRateWithDwell(1, 1, 0, 0, 4) * wait(0.158655253931457, 5)).toBeCloseTo(1, 8);
    const both = wait(0.0668072012688581, 3) + wait(0.00620966532577614, 3);
    expect((toggleRateWithDwell(2, 1, 0, 0.5, 2) * both) / 2).toBeCloseTo(1, 6);
  });

  it('falls with the dwell and is 0 where the plain rate is', () => {
    let last = 1;
    for (const dwell of [0, 1, 2, 5, 20]) {
      const rate = toggleRateWithDwell(1.5, 1, 0.7, 0.2, dwell);
      expect(rate).toBeLessThan(last);
      expect(rate).toBeGreaterThan(0);
      last = rate;
    }
    expect(toggleRateWithDwell(10, 1, 0.2, 0, 3)).toBe(0);
    expect(toggleRateWithDwell(1, 0, 0.2, 0, 3)).toBe(0);
    expect(toggleRateWithDwell(8, 1, 0, 0.9, 30)).toBeLessThan(1e-30);
  });

  // Shares from the table in the doc comment, counted there with another random generator.
  it.each([
    [1, 0, 1, 1],
    [1, 0.6, 1, 0.83],
    [1, 0.9, 1, 0.49],
    [2, 0.6, 1, 0.93],
    [1, 0.6, 3, 1.05],
  ])(
    'half-width %d sd, correlation %d, dwell %i: the board’s toggle flips %d times as often',
    (half, lag1, dwell, ratio) => {
      const samples = LONG ? 3_000_000 : 300_000;
      const [k0, k1] = keys(9, 20_250_131, 0);
      const fresh = Math.sqrt(1 - lag1 * lag1);
      let x = 0;
      let on = 0;
      let held = 0;
      let count = 0;
      for (let i = 0; i < samples; i++) {
        x = lag1 * x + fresh * gaussAt(i, k0, k1);
        held = toggleDwell(held, on, x, half, -half, dwell);
        const next = nextToggle(on, held, dwell);
        if (next !== on) count++;
        on = next;
      }
      // Scatter of the count: 3 % of 1200 toggles at the rarest.
      const measured = count / samples / toggleRateWithDwell(half, 1, lag1, 0, dwell);
      expect(Math.abs(measured / ratio - 1)).toBeLessThan(LONG ? 0.03 : 0.08);
    },
  );
});
