import { sampleCorrelation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { correlationLag } from '../../../sim/study/correlation-lag.ts';
import { madeTrace, standardScene } from './made-trace.ts';

const { frames, windows, truth, at } = standardScene();
const trace = madeTrace(truth, { windows });

/** The truth so many frames later, with some unevenness of the size of noise. */
function delayed(byFrames: number): Float64Array {
  return Float64Array.from({ length: frames }, (_, f) => at(f - byFrames) + 0.004 * Math.sin(f * f));
}

/** Every delay tried, by a library's correlation; the parabola through the best three written out once more. */
function lagOfAll(closure: Float64Array): number {
  const from = windows.grasps[0].from;
  const to = windows.grasps[windows.grasps.length - 1].to;
  const values = Array.from({ length: 62 }, (_, i) =>
    sampleCorrelation([...truth.slice(from, to)], [...closure.slice(from + i - 1, to + i - 1)]),
  );
  const best = values.indexOf(Math.max(...values));
  const [a, b, c] = values.slice(best - 1, best + 2);
  return best - 1 + (0.5 * (a - c)) / (a - 2 * b + c);
}

describe('lag by correlation', () => {
  for (const byFrames of [0.3, 1, 2.4, 7.7, 20, 33.1]) {
    for (const wrongBy of [0, 1, -1, 4, -4]) {
      it(`of ${byFrames} frames, climbed to from a guess ${wrongBy} off, is that of trying every delay`, () => {
        const closure = delayed(byFrames);
        const found = correlationLag(closure, trace, byFrames + wrongBy);
        expect(found).toBeCloseTo(lagOfAll(closure), 8);
        // The parabola is not the peak's exact shape: a tenth of a frame.
        expect(Math.abs(found - byFrames)).toBeLessThan(0.1);
      });
    }
  }

  it('is the same from a guess on either side of the best delay', () => {
    const closure = delayed(5);
    expect(correlationLag(closure, trace, 2)).toBeCloseTo(correlationLag(closure, trace, 9), 10);
  });
});
