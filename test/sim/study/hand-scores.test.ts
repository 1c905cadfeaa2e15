import { describe, expect, it } from 'vitest';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { frameCost } from '../../../firmware/boards/cost.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { addedLag, combineFingers, HAND, HAND_SCORES } from '../../../sim/study/hand-scores.ts';
import { METRIC, METRICS } from '../../../sim/study/metrics.ts';
import { plain } from './any-settings.ts';

type Metrics = Partial<Record<keyof typeof METRIC, number>>;

/** Scores of a hand whose fingers have these metrics, in the second of two settings. */
function handOf(fingers: Metrics[], added = { waitMs: 0, boardMs: 0, fingerReadMs: 0 }) {
  const rows = fingers.map((metrics) => {
    const row = new Float64Array(2 * METRICS).fill(1e6, 0, METRICS);
    for (const [name, value] of Object.entries(metrics))
      row[METRICS + METRIC[name as keyof typeof METRIC]] = value;
    return row;
  });
  const out = new Float64Array(2 * HAND_SCORES).fill(Number.NaN);
  const rig = { ...defaultRig(), fingers: defaultRig().fingers.slice(0, fingers.length) };
  combineFingers(rows, [added, added], rig, out);
  return (name: keyof typeof HAND) => out[HAND_SCORES + HAND[name]];
}

describe('scores of a hand', () => {
  it('are those of the worst finger, in % and ms', () => {
    const hand = handOf([
      { jitter: 0.001, overshoot: 0.03, endMiss: 0, step: 0.002, falsePerHour: 7, recovery: 1 },
      { jitter: 0.004, overshoot: 0.01, endMiss: 0.02, step: 0.001, falsePerHour: 0.1, recovery: 3 },
    ]);
    const names = [
      'jitterPct',
      'overshootPct',
      'endMissPct',
      'stepPct',
      'falsePerHour',
      'recoveryMs',
    ] as const;
    const expected = [0.4, 3, 2, 0.2, 7, 30];
    names.forEach((name, i) => {
      expect(hand(name)).toBeCloseTo(expected[i], 12);
    });
  });

  it('give jitter as an angle of the base joint: 90° for fingers, 50° for the thumb', () => {
    // 0.4 % of 50° and 0.3 % of 90°: the finger is worse in degrees, the thumb in %.
    const hand = handOf([{ jitter: 0.004 }, { jitter: 0.003 }]);
    expect(hand('jitterDeg')).toBeCloseTo(0.27, 12);
    expect(hand('jitterPct')).toBeCloseTo(0.4, 12);
  });

  it('stay no number when a finger has none', () => {
    expect(handOf([{ jitter: Number.NaN }, { jitter: 0.1 }])('jitterPct')).toBeNaN();
    expect(handOf([{ jitter: 0.1 }, { jitter: Number.NaN }])('jitterPct')).toBeNaN();
  });

  it('take the tracking error over all fingers: errors of 3 % and 4 % are √12.5 %', () => {
    const hand = handOf([{ squareError: 0.0009 }, { squareError: 0.0016 }]);
    expect(hand('errorPct')).toBeCloseTo(Math.sqrt(12.5), 12);
  });

  it('add to the lag of a finger the wait, the board and the readings of the fingers after it', () => {
    const added = { waitMs: 5, boardMs: 2, fingerReadMs: 0.3 };
    // 10 ms a frame. The first waits for two fingers: 20 + 7 + 0.6; the last for none: 20.5 + 7.
    expect(handOf([{ lag: 2 }, { lag: 1 }, { lag: 2.05 }], added)('lagMs')).toBeCloseTo(27.6, 12);
    expect(handOf([{ lag: 2 }, { lag: 1 }, { lag: 2.07 }], added)('lagMs')).toBeCloseTo(27.7, 12);
    expect(handOf([{ lagCorrelation: 1 }, { lagCorrelation: 3 }], added)('lagCorrelationMs')).toBeCloseTo(
      37,
      12,
    );
    // A lag below nothing stays what it is.
    expect(handOf([{ lag: -1 }], added)('lagMs')).toBeCloseTo(-3, 12);
  });
});

describe('delays on top of a trace', () => {
  it('are half a frame, the board’s time in the interpreter and the readings of a finger', () => {
    const rig = defaultRig();
    const settings = plain({ oversampling: 8 });
    const { waitMs, boardMs, fingerReadMs } = addedLag(settings, rig);
    expect(waitMs).toBe(5);
    expect(fingerReadMs).toBeCloseTo((8 * boardFacts('esp32').readUs) / 1000, 12);
    expect(boardMs).toBe(frameCost({ ...settings, fingers: 5 }, 'esp32').cpuMs);
    expect(addedLag(settings, { ...rig, frameRateHz: 50 }).waitMs).toBe(10);
  });
});
