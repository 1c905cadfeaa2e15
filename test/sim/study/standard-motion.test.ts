import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closureAt, fillClosure, type Motion, motionLengthS } from '../../../sim/study/motion.ts';
import { standardMotion } from '../../../sim/study/standard-motion.ts';
import { type Span, windowsOf } from '../../../sim/study/windows.ts';
import { evenly } from '../evenly.ts';

const RATES_HZ = [25, 50, 100, 200];

/** Standard motions of any variation, its ends included. */
const anyMotion = fc
  .array(fc.oneof(evenly(-1, 1), fc.constantFrom(-1, 1)), { minLength: 80, maxLength: 80 })
  .map((numbers) => {
    let next = 0;
    return standardMotion(() => numbers[next++]);
  });

const anyRate = fc.constantFrom(...RATES_HZ);

/** Start, end and ends of travel of every segment. */
function timeline(motion: Motion) {
  let atS = 0;
  let from = motion.start;
  return motion.segments.map((segment) => {
    const part = { ...segment, startS: atS, endS: atS + segment.durationS, from };
    atS = part.endS;
    from = segment.to;
    return part;
  });
}

describe('standard motion', () => {
  it('is 20 s long, starts and ends open, and never leaves 0-1', () => {
    fc.assert(
      fc.property(anyMotion, (motion) => {
        expect(motionLengthS(motion)).toBeCloseTo(20, 9);
        expect(motion.start).toBe(0);
        expect(closureAt(motion, 25)).toBe(0);
        for (const { durationS, to } of motion.segments) {
          expect(durationS).toBeGreaterThan(0);
          expect(to).toBeGreaterThanOrEqual(0);
          expect(to).toBeLessThanOrEqual(1);
        }
        // The last hold is what is left: 1.16 s less up to a tenth of the 11.4 s of other holds.
        expect(motion.segments[motion.segments.length - 1].durationS).toBeGreaterThan(0.019);
      }),
    );
  });

  it('has eight grasps of 90 to 400 ms, each followed by a hold', () => {
    fc.assert(
      fc.property(anyMotion, ({ segments }) => {
        const grasps = segments.filter((s) => s.mark === 'grasp');
        expect(grasps.map((s) => s.durationS)).toEqual([0.09, 0.09, 0.15, 0.15, 0.25, 0.25, 0.4, 0.4]);
        segments.forEach((s, i) => {
          if (s.mark === 'grasp') expect(segments[i + 1].kind).toBe('hold');
        });
      }),
    );
  });

  it('reaches both very ends, and stays below them everywhere else', () => {
    fc.assert(
      fc.property(anyMotion, ({ segments }) => {
        const targets = segments.map((s) => s.to);
        expect(targets.filter((to) => to === 1).length).toBe(2);
        expect(targets.filter((to) => to === 0).length).toBe(3);
      }),
    );
  });
});

describe('closure over time', () => {
  it('is the same asked for singly and filled in one walk, at any step', () => {
    fc.assert(
      fc.property(anyMotion, fc.constantFrom(0.0025, 0.005, 0.01, 0.04, 0.0037), (motion, stepS) => {
        const filled = new Float64Array(Math.ceil(20.5 / stepS));
        fillClosure(motion, stepS, filled);
        const asked = filled.map((_, k) => closureAt(motion, (k + 1) * stepS));
        expect(Math.max(...filled.map((value, k) => Math.abs(value - asked[k])))).toBeLessThan(1e-9);
        // The polynomial sums up terms of up to 15 and rounds each.
        expect(Math.min(...filled)).toBeGreaterThanOrEqual(-1e-13);
        expect(Math.max(...filled)).toBeLessThanOrEqual(1 + 1e-13);
      }),
      { numRuns: 20 },
    );
  });

  it('follows minimum jerk in moves: 0.1035 done at a quarter, half at half; a sweep is even', () => {
    // 10/4³ − 15/4⁴ + 6/4⁵ = 106/1024 (Flash and Hogan 1985)
    const motion: Motion = {
      start: 0.2,
      segments: [
        { kind: 'hold', to: 0.2, durationS: 1, mark: 'none' },
        { kind: 'move', to: 0.7, durationS: 2, mark: 'none' },
        { kind: 'sweep', to: 0.3, durationS: 4, mark: 'none' },
      ],
    };
    const expected = [
      [0.5, 0.2],
      [1.5, 0.2 + (0.5 * 106) / 1024],
      [2, 0.45],
      [2.5, 0.7 - (0.5 * 106) / 1024],
      [3, 0.7],
      [4, 0.6],
      [6.5, 0.35],
      [7, 0.3],
      [99, 0.3],
    ];
    for (const [timeS, closure] of expected) expect(closureAt(motion, timeS)).toBeCloseTo(closure, 12);
  });
});

describe('scoring windows', () => {
  /** The segments within which every frame of a span is sampled; frame f at (f + 1)·period. */
  function segmentOf(span: Span, motion: Motion, periodS: number) {
    return timeline(motion).find(
      (s) => (span.from + 1) * periodS > s.startS - 1e-9 && span.to * periodS < s.endS + 1e-9,
    );
  }

  it('lie inside their own holds, at every frame rate, and there is one for each', () => {
    fc.assert(
      fc.property(anyMotion, anyRate, (motion, rateHz) => {
        const periodS = 1 / rateHz;
        const frames = 20 * rateHz;
        const windows = windowsOf(motion, periodS, frames);
        const { rest, open, closed, slow, spikes } = windows;
        expect([rest, closed, slow, spikes].map((w) => w.length)).toEqual([3, 1, 1, 1]);
        // One in some thousand motions has too little left at the end for the second.
        const leftFrames = (motion.segments[motion.segments.length - 1].durationS - 0.4) * rateHz;
        if (leftFrames > 4.01) expect(open.length).toBe(2);
        if (leftFrames < 2.99) expect(open.length).toBe(1);
        for (const mark of ['rest', 'open', 'closed', 'slow'] as const) {
          for (const span of windows[mark]) {
            const segment = segmentOf(span, motion, periodS);
            expect(segment?.mark).toBe(mark);
            // The output has 0.4 s or more to settle.
            expect((span.from + 1) * periodS - (segment?.startS ?? 0)).toBeGreaterThan(0.4 - 1e-9);
          }
        }
        expect(segmentOf(windows.spikes[0], motion, periodS)?.mark).toBe('spike');
        // The five frames before the wrong one, with which it is compared, show the finger at the same place.
        const [spike] = windows.spikes;
        for (let f = spike.from - 5; f < spike.to; f++) {
          expect(closureAt(motion, (f + 1) * periodS)).toBe(closureAt(motion, (spike.from + 1) * periodS));
        }
        const [lastGrasp] = windows.grasps.slice(-1);
        // The lag is looked for up to 60 frames later, or as far as the trace goes: 1.2 s at least.
        expect((frames - lastGrasp.to) * periodS).toBeGreaterThan(1.2);
      }),
    );
  });

  it('do not overlap', () => {
    fc.assert(
      fc.property(anyMotion, anyRate, (motion, rateHz) => {
        const w = windowsOf(motion, 1 / rateHz, 20 * rateHz);
        const all: Span[] = [...w.rest, ...w.open, ...w.closed, ...w.slow, ...w.spikes, ...w.grasps];
        all.sort((a, b) => a.from - b.from);
        all.forEach((span, i) => {
          expect(span.to).toBeGreaterThan(span.from);
          if (i > 0) expect(span.from).toBeGreaterThanOrEqual(all[i - 1].to);
        });
        expect(all[all.length - 1].to).toBeLessThanOrEqual(20 * rateHz);
      }),
    );
  });

  it('know when and where each grasp passes its middle and arrives', () => {
    fc.assert(
      fc.property(anyMotion, anyRate, (motion, rateHz) => {
        const periodS = 1 / rateHz;
        const windows = windowsOf(motion, periodS, 20 * rateHz);
        const parts = timeline(motion).filter((s) => s.mark === 'grasp');
        expect(windows.grasps.length).toBe(parts.length);
        windows.grasps.forEach((g, i) => {
          const { startS, endS, from, to } = parts[i];
          expect(closureAt(motion, (g.middleFrame + 1) * periodS)).toBeCloseTo((from + to) / 2, 9);
          expect(g.middle).toBeCloseTo((from + to) / 2, 12);
          expect(g.direction).toBe(to > from ? 1 : -1);
          expect((g.from + 1) * periodS).toBeGreaterThan(startS - 1e-9);
          expect(g.from * periodS).toBeLessThan(startS + 1e-9);
          expect((g.arrival + 1) * periodS).toBeGreaterThan(endS - 1e-9);
          expect(g.arrival * periodS).toBeLessThan(endS + 1e-9);
          // The hold of 270 ms or more, to see the output settle.
          expect((g.to - g.arrival) * periodS).toBeGreaterThan(0.27 - periodS - 1e-9);
        });
      }),
    );
  });

  it.each([75, 100, 125])(
    'are left out when they would hold fewer than four frames (25 Hz, %d ms long)',
    (lengthMs) => {
      const motion: Motion = {
        start: 0.5,
        segments: [{ kind: 'hold', to: 0.5, durationS: 0.5 + lengthMs / 1000, mark: 'rest' }],
      };
      expect(windowsOf(motion, 0.04, 100).rest).toEqual([]);
    },
  );
});
