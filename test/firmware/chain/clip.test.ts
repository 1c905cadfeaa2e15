import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clip } from '../../../firmware/chain/clip.ts';

describe('clip', () => {
  it('limits steps of both signs and leaves smaller ones alone', () => {
    expect([5, 2, 1.999, 0, -1.999, -2, -5].map((step) => clip(step, 2))).toEqual([
      2, 2, 1.999, 0, -1.999, -2, -2,
    ]);
  });

  it('is max(−limit, min(limit, step)) for every step', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true }),
        fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
        (step, limit) => {
          expect(clip(step, limit) === Math.max(-limit, Math.min(limit, step))).toBe(true);
        },
      ),
    );
  });
});
