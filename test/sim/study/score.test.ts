import { describe, expect, it } from 'vitest';
import type { LowPass } from '../../../firmware/chain/settings.ts';
import { gaussAt } from '../../../sim/seed/gauss.ts';
import { keys } from '../../../sim/seed/mix.ts';
import { plain } from './any-settings.ts';
import { madeTrace, scoresOf, standardScene } from './made-trace.ts';

const scene = standardScene();
const { truth, windows, frames } = scene;

/** Gain of y += a(x − y) with the −3 dB point at the cut-off: b = 1 − cos(2π·fc/fs), a = −b + √(b² + 2b). */
function averageGain(cutoffHz: number, frameRateHz: number): number {
  const b = 1 - Math.cos((2 * Math.PI * cutoffHz) / frameRateHz);
  return -b + Math.sqrt(b * b + 2 * b);
}

function exponential(cutoffHz: number): LowPass {
  return { kind: 'exponential', cutoffHz };
}

/** Scores of the chain that changes nothing. */
function scored(output: ArrayLike<number>, more: Parameters<typeof madeTrace>[1] = {}) {
  return scoresOf(madeTrace(output, { truth, windows, ...more }), plain())[0];
}

function altered(alter: (value: number, frame: number) => number): Float64Array {
  return truth.map(alter);
}

describe('lag', () => {
  it.each([0, 0.3, 1, 2, 2.5, 4.7, 9, 15])(
    'of a pure delay of %d frames is that delay, by both measures',
    (delay) => {
      const output = truth.map((_, f) => scene.at(f - delay));
      const { lag, lagCorrelation } = scored(output);
      expect(Math.abs(lag - delay)).toBeLessThan(0.05);
      expect(Math.abs(lagCorrelation - delay)).toBeLessThan(0.05);
    },
  );

  it.each([50, 200])('counts frames of %d Hz', (frameRateHz) => {
    const other = standardScene(frameRateHz);
    const output = other.truth.map((_, f) => other.at(f - 0.04 * frameRateHz));
    const trace = madeTrace(output, { truth: other.truth, windows: other.windows, periodS: other.periodS });
    const [{ lag, lagCorrelation }] = scoresOf(trace, plain());
    expect(Math.abs(lag - 0.04 * frameRateHz)).toBeLessThan(0.05);
    expect(Math.abs(lagCorrelation - 0.04 * frameRateHz)).toBeLessThan(0.05);
  });

  it('of an exponential average lies between nothing and its lag on a ramp, (1 − a)/a frames', () => {
    // A grasp is no ramp: the average has not settled when the middle is crossed, so it lags less; a slow one nearly so.
    for (const cutoffHz of [4, 10]) {
      const [{ lag }] = scoresOf(madeTrace(truth, { windows }), plain({ lowPass: exponential(cutoffHz) }));
      const gain = averageGain(cutoffHz, 100);
      expect(lag).toBeGreaterThan(0.75 * ((1 - gain) / gain));
      expect(lag).toBeLessThan((1 - gain) / gain);
    }
  });

  it('of an output that never crosses is the whole grasp, not a small number', () => {
    const { lag } = scored(truth.map(() => 0.2));
    const longest = windows.grasps.reduce(
      (sum, g) => sum + (g.direction > 0 ? g.to - g.middleFrame : g.from - g.middleFrame),
      0,
    );
    expect(lag).toBeCloseTo(longest / windows.grasps.length, 9);
    // 40 ms of grasp, 300 ms of hold and 100 ms of wind-up on average, half of the grasps
    expect(lag).toBeGreaterThan(10);
  });
});

describe('jitter', () => {
  const NOISES = 40;
  const SD = 0.01;
  const settings = [plain(), plain({ lowPass: exponential(5) }), plain({ lowPass: exponential(15) })];
  const variance = [0, 0, 0];
  for (let n = 0; n < NOISES; n++) {
    const [k0, k1] = keys(n, 20, 0);
    const trace = madeTrace(
      altered((v, f) => v + SD * gaussAt(f, k0, k1)),
      { truth, windows },
    );
    scoresOf(trace, ...settings).forEach((scores, i) => {
      variance[i] += scores.jitter ** 2 / NOISES;
    });
  }
  const rows = windows.rest.reduce((sum, { from, to }) => sum + to - from, 0);

  it.each([
    ['nothing', 0, 1],
    ['an average of 5 Hz', 1, averageGain(5, 100)],
    ['an average of 15 Hz', 2, averageGain(15, 100)],
  ] as const)('of white noise after %s is √(a/(2 − a)) of its sd', (_, index, gain) => {
    // Neighbours correlate by 1 − a: the mean of each rest takes (2 − a)/a/n of the variance with it, and the
    // sampling error of a variance is √(2(1 + r²)/(1 − r²)/n).
    const keep = 1 - gain;
    const kept =
      windows.rest.reduce((sum, { from, to }) => sum + to - from - (1 + keep) / (1 - keep), 0) / rows;
    const expected = (gain / (2 - gain)) * kept;
    const error = Math.sqrt((2 * (1 + keep * keep)) / (1 - keep * keep) / (rows * NOISES));
    expect(Math.abs(variance[index] / (SD * SD) / expected - 1)).toBeLessThan(4 * error);
    expect(error).toBeLessThan(0.02);
  });

  it('does not count the distance from the truth, nor differences between the rests', () => {
    expect(scored(altered((v, f) => v + (f < windows.rest[1].from - 30 ? 0.02 : -0.03))).jitter).toBeLessThan(
      1e-5,
    );
  });

  it('of a finger that does not move at all is 0, with no false gestures', () => {
    const { jitter, falsePerHour } = scored(truth.map(() => 0.5));
    // Rounding of the mean leaves some 1e-17.
    expect(jitter).toBeLessThan(1e-15);
    expect(falsePerHour).toBe(0);
  });
});

describe('tracking error', () => {
  it.each([0.03, -0.05])('of an offset of %d is that offset (rms)', (offset) => {
    expect(Math.sqrt(scored(altered((v) => v + offset)).squareError)).toBeCloseTo(Math.abs(offset), 4);
  });

  it('of a sine of amplitude 0.04 is 0.04/√2', () => {
    const output = altered((v, f) => v + 0.04 * Math.sin((2 * Math.PI * f) / 20));
    expect(Math.sqrt(scored(output).squareError)).toBeCloseTo(0.04 / Math.SQRT2, 4);
  });
});

describe('overshoot', () => {
  /** Adds to the output of one grasp a bump that is over 100 ms after the arrival. */
  function bumped(index: number, size: number): Float64Array {
    const { arrival } = windows.grasps[index];
    return altered((v, f) => v + (f >= arrival && f < arrival + 10 ? size : 0));
  }

  it('is none for the truth itself', () => {
    expect(scored(truth).overshoot).toBeLessThan(1e-4);
  });

  it('is the height of a bump beyond the end, closing or opening', () => {
    expect(scored(bumped(2, 0.04)).overshoot).toBeCloseTo(0.04, 4);
    expect(scored(bumped(3, -0.06)).overshoot).toBeCloseTo(0.06, 4);
  });

  it('does not count a bump on this side of the end', () => {
    expect(scored(bumped(2, -0.04)).overshoot).toBeLessThan(1e-4);
    expect(scored(bumped(3, 0.06)).overshoot).toBeLessThan(1e-4);
  });

  it('is measured from where the output settles, not from the truth', () => {
    const output = bumped(4, 0.03).map((v) => v * 0.9);
    expect(scored(output).overshoot).toBeCloseTo(0.027, 4);
  });
});

describe('ends missed', () => {
  it('is the larger distance of the settled output from 0 or 1', () => {
    expect(scored(altered((v) => 0.015 + 0.965 * v)).endMiss).toBeCloseTo(0.02, 4);
    expect(scored(altered((v) => 0.03 + 0.96 * v)).endMiss).toBeCloseTo(0.03, 4);
  });

  it('is 0 when both ends are reached or passed', () => {
    expect(scored(altered((v) => 1.02 * v - 0.01)).endMiss).toBe(0);
  });

  it('is nearly 1 for a finger that stays closed', () => {
    expect(scored(truth.map(() => 0.97)).endMiss).toBeCloseTo(0.97, 4);
  });
});

describe('jumps in slow motion', () => {
  const [slow] = windows.slow;
  const speed = truth[slow.from + 1] - truth[slow.from];

  it.each([2, 10, 40])(
    'of a staircase of one tread in %d frames is the tread less the true motion',
    (every) => {
      const output = altered((v, f) => (f >= slow.from && f < slow.to ? truth[f - (f % every)] : v));
      // |k·v − v|: the truth moves on by v in the same frame. Words resolve 1/52429.
      expect(Math.abs(scored(output).step - (every - 1) * Math.abs(speed))).toBeLessThan(4e-5);
    },
  );

  it('is none for the truth itself', () => {
    expect(scored(truth).step).toBeLessThan(4e-5);
  });

  it('is the 99th percentile: of 209 steps the third largest', () => {
    expect(slow.to - slow.from).toBe(210);
    const withJumps = (jumps: number) =>
      scored(altered((v, f) => v + 0.1 * Math.min(jumps, Math.max(0, Math.floor((f - slow.from) / 50)))))
        .step;
    expect(withJumps(2)).toBeLessThan(4e-5);
    expect(withJumps(3)).toBeCloseTo(0.1, 4);
  });
});

describe('recovery after a wrong frame', () => {
  const [{ from }] = windows.spikes;

  function spiked(size: number, parts: Parameters<typeof plain>[0]) {
    const trace = madeTrace(
      altered((v, f) => (f === from ? v + size : v)),
      { truth, windows },
    );
    return scoresOf(trace, plain(parts))[0].recovery;
  }

  it.each([
    [5, 0.2],
    [5, 0.45],
    [2, 0.45],
    [10, -0.3],
    [1, 0.2],
  ])('takes an average of %d Hz hit by %d until a·(1 − a)ⁿ of it is 0.02', (cutoffHz, size) => {
    const gain = averageGain(cutoffHz, 100);
    let n = 0;
    while (gain * (1 - gain) ** n * Math.abs(size) > 0.02) n++;
    expect(spiked(size, { lowPass: exponential(cutoffHz) })).toBe(n);
  });

  it('is the wrong frame itself without a filter and nothing with a median', () => {
    expect(spiked(0.3, {})).toBe(1);
    expect(spiked(0.3, { despike: { kind: 'median' } })).toBe(0);
  });

  it('is shorter with a clip, by the clipped height', () => {
    const gain = averageGain(5, 100);
    let n = 0;
    while (gain * (1 - gain) ** n * 0.1 > 0.02) n++;
    expect(spiked(0.45, { despike: { kind: 'clip', limitPct: 10 }, lowPass: exponential(5) })).toBe(n);
  });

  it('is the worst of several', () => {
    const spikes = [
      { from: 300, to: 340 },
      { from: 400, to: 440 },
    ];
    const output = new Float64Array(frames).fill(0.5);
    for (let f = 400; f < 407; f++) output[f] = 0.53;
    const trace = madeTrace(output, { windows: { ...windows, spikes } });
    expect(scoresOf(trace, plain())[0].recovery).toBe(7);
    expect(scoresOf({ ...trace, windows: { ...windows, spikes: [spikes[0]] } }, plain())[0].recovery).toBe(0);
  });
});
