import { describe, expect, it } from 'vitest';
import { flexionDeg, fullFlexionDeg, thumbFlexionDeg } from '../../../sim/hand/closure.ts';
import { minimumJerk, minimumJerkAcceleration, minimumJerkVelocity } from '../../../sim/hand/minimum-jerk.ts';
import { tremorDeg } from '../../../sim/hand/tremor.ts';

/** Largest value of f over 0..1 and where it is. */
function peak(f: (tau: number) => number): { at: number; value: number } {
  let best = { at: 0, value: -Infinity };
  for (let i = 0; i <= 20000; i += 1) {
    const value = f(i / 20000);
    if (value > best.value) best = { at: i / 20000, value };
  }
  return best;
}

describe('minimum jerk movement', () => {
  it('follows the quintic of Flash & Hogan 1985', () => {
    // s(1/4) = 10/64 - 15/256 + 6/1024 = 106/1024
    expect(minimumJerk(0.25)).toBeCloseTo(0.103516, 6);
    expect(minimumJerk(0.5)).toBe(0.5);
  });

  it('stays at its ends before and after, also for a time that is no number', () => {
    expect([-1, 0, 1, 7, NaN].map(minimumJerk)).toEqual([0, 0, 1, 1, 0]);
    expect([-1, 0, 1, 7, NaN].map(minimumJerkVelocity)).toEqual([0, 0, 0, 0, 0]);
    expect([-1, 0, 1, 7, NaN].map(minimumJerkAcceleration)).toEqual([0, 0, 0, 0, 0]);
  });

  it('peaks at 1.875 distances per movement time, in the middle', () => {
    const top = peak(minimumJerkVelocity);
    expect(top.value).toBeCloseTo(1.875, 9);
    expect(top.at).toBeCloseTo(0.5, 9);
  });

  it('peaks at an acceleration of 5.7735 at tau 0.2113', () => {
    // 10/sqrt(3) at (1 - 1/sqrt(3))/2
    const top = peak(minimumJerkAcceleration);
    expect(top.value).toBeCloseTo(5.7735, 4);
    expect(top.at).toBeCloseTo(0.2113, 4);
  });

  it('has velocity and acceleration that are its derivatives', () => {
    const h = 1e-5;
    for (const tau of [0.1, 0.3, 0.55, 0.9]) {
      const slope = (minimumJerk(tau + h) - minimumJerk(tau - h)) / (2 * h);
      expect(minimumJerkVelocity(tau)).toBeCloseTo(slope, 7);
      const bend = (minimumJerkVelocity(tau + h) - minimumJerkVelocity(tau - h)) / (2 * h);
      expect(minimumJerkAcceleration(tau)).toBeCloseTo(bend, 7);
    }
  });

  it('has a squared jerk that integrates to 720', () => {
    const n = 2000;
    let sum = 0;
    for (let i = 0; i < n; i += 1) {
      const jerk = (minimumJerkAcceleration((i + 1) / n) - minimumJerkAcceleration(i / n)) * n;
      sum += (jerk * jerk) / n;
    }
    expect(sum).toBeCloseTo(720, 2);
  });

  it('turns 90 deg in 200 ms at up to 844 deg/s', () => {
    expect((peak(minimumJerkVelocity).value * 90) / 0.2).toBeCloseTo(843.75, 6);
  });
});

describe('closure', () => {
  it('closes a finger to 90, 100, 66.667 deg and the thumb to 15, 50, 80', () => {
    expect([0, 1, 2].map((j) => flexionDeg(1, j as 0 | 1 | 2))).toEqual([90, 100, expect.closeTo(66.667, 3)]);
    expect([0, 1, 2].map((j) => thumbFlexionDeg(1, j as 0 | 1 | 2))).toEqual([15, 50, 80]);
    expect(flexionDeg(0.5, 0)).toBe(45);
    expect(flexionDeg(0, 1)).toBe(0);
  });

  it('knows which finger is the thumb', () => {
    expect(fullFlexionDeg('thumb')[0]).toBe(15);
    expect(fullFlexionDeg('little')[0]).toBe(90);
  });
});

describe('tremor', () => {
  it('is a sine of the given frequency and phase', () => {
    expect(tremorDeg(0.025, 0.2, 10, 0)).toBeCloseTo(0.2, 12);
    expect(tremorDeg(0, 0.2, 10, Math.PI / 6)).toBeCloseTo(0.1, 12);
  });
});
