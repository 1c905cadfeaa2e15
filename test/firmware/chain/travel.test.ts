import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TRAVEL_STEP, travelOfWord, wordOfTravel } from '../../../firmware/chain/travel.ts';

describe('travelOfWord', () => {
  // 10 % headroom: 6553 = 65535 / 10 and 58982 = 9 * 65535 / 10, rounded down as protocol/SPEC.md says.
  it('is 0 at 6553, 1 at 58982, a half between, and a little outside beyond', () => {
    expect(travelOfWord(6553)).toBe(0);
    expect(travelOfWord(58982)).toBe(1);
    expect(travelOfWord(32767.5)).toBe(0.5);
    expect(travelOfWord(0)).toBeCloseTo(-0.12499, 5);
    expect(travelOfWord(65534)).toBeCloseTo(1.12497, 5);
  });

  it('is NaN for 65535, the word of a finger without a valid value', () => {
    expect(travelOfWord(65535)).toBeNaN();
    expect(wordOfTravel(Number.NaN)).toBe(65535);
  });
});

describe('wordOfTravel', () => {
  it('gives every word back', () => {
    for (let word = 0; word < 65536; word++) {
      if (wordOfTravel(travelOfWord(word)) !== word) expect.fail(`word ${word}`);
    }
  });

  it('is the nearest word, and never the invalid one for a number', () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 3, noNaN: true }), (travel) => {
        const word = wordOfTravel(travel);
        const inside = Math.max(travelOfWord(0), Math.min(travelOfWord(65534), travel));
        expect(Math.abs(travelOfWord(word) - inside)).toBeLessThanOrEqual(TRAVEL_STEP / 2 + 1e-12);
      }),
    );
    expect(wordOfTravel(Number.POSITIVE_INFINITY)).toBe(65534);
    expect(wordOfTravel(Number.NEGATIVE_INFINITY)).toBe(0);
  });
});
