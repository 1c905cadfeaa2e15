import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createLossCounter } from '../../protocol/loss.ts';

/** Feeds frame numbers n: sequence n mod 256, device time n * 10 ms. */
function feed(numbers: number[]): { steps: number[]; counters: object } {
  const loss = createLossCounter(0.01);
  const steps = numbers.map((n) => loss.arrive(n % 256, n * 0.01));
  return { steps, counters: loss.counters };
}

describe('counting losses', () => {
  it('counts nothing on a whole row that passes 255 -> 0', () => {
    const { steps, counters } = feed(Array.from({ length: 600 }, (_, i) => i + 100));
    expect(steps.every((step) => step === 1)).toBe(true);
    expect(counters).toEqual({ lost: 0, duplicates: 0, reordered: 0, restarts: 0 });
  });

  it('counts a drop, a duplicate and an overtaken frame', () => {
    expect(feed([1, 2, 5]).counters).toEqual({ lost: 2, duplicates: 0, reordered: 0, restarts: 0 });
    expect(feed([1, 2, 2, 3]).counters).toEqual({ lost: 0, duplicates: 1, reordered: 0, restarts: 0 });
    const late = feed([1, 3, 2, 4]);
    expect(late.steps).toEqual([1, 2, -1, 1]);
    expect(late.counters).toEqual({ lost: 0, duplicates: 0, reordered: 1, restarts: 0 });
  });

  it('counts 300 lost frames as 300, not 44', () => {
    expect(feed([0, 301]).counters).toMatchObject({ lost: 300 });
  });

  it('counts 255 lost frames although the number comes again, and 200 although it seems to go back', () => {
    expect(feed([7, 263]).counters).toMatchObject({ lost: 255, duplicates: 0 });
    expect(feed([7, 208]).counters).toMatchObject({ lost: 200, reordered: 0 });
  });

  it('takes time running back by more than 1 s as a new start, without losses', () => {
    expect(feed([5000, 5001, 3, 4]).counters).toEqual({ lost: 0, duplicates: 0, reordered: 0, restarts: 1 });
  });

  it('takes the frame after an announced restart as a first one', () => {
    const loss = createLossCounter(0.01);
    loss.arrive(10, 1);
    loss.restart();
    expect(loss.arrive(200, 90)).toBe(1);
    expect(loss.counters.lost).toBe(0);
  });

  it('names the value when the frame period makes no sense', () => {
    expect(() => createLossCounter(0)).toThrow('protocol/frame-period: got 0 s, expected more than 0');
    expect(() => createLossCounter(Number.NaN)).toThrow('protocol/frame-period');
  });

  it('counts any gaps exactly with a board clock 1 % off, jitter and frames outside the raster', () => {
    const gap = fc.oneof(
      { weight: 3, arbitrary: fc.constant(1) },
      { weight: 1, arbitrary: fc.integer({ min: 1, max: 6000 }) },
    );
    fc.assert(
      fc.property(
        fc.array(gap, { maxLength: 60 }),
        fc.integer({ min: -1, max: 1 }),
        fc.nat(60),
        (gaps, percent, extra) => {
          const loss = createLossCounter(0.01);
          let number = 0;
          let extras = 0;
          loss.arrive(0, 0);
          let lost = 0;
          for (const steps of gaps) {
            number += steps;
            lost += steps - 1;
            // within a gap some of the frames were replies that took a number but no time
            if (steps > 100) extras += extra;
            loss.arrive(number % 256, (number - extras) * 0.01 * (1 + percent / 100) + 0.003);
          }
          expect(loss.counters).toEqual({ lost, duplicates: 0, reordered: 0, restarts: 0 });
        },
      ),
    );
  });
});
