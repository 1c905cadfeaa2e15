import { describe, expect, it } from 'vitest';
import { saturate, toWord } from '../../../firmware/chain/calibrate.ts';
import { wordGain, wordOffset } from '../../../firmware/chain/word-scale.ts';

describe('saturate', () => {
  it('keeps words from 0 to 65534, leaving 65535 to say that there is no value', () => {
    expect([-0.1, -1e9, 0, 0.9, 65533.9, 65534, 65534.1, 65535, 1e9].map(saturate)).toEqual([
      0, 0, 0, 0.9, 65533.9, 65534, 65534, 65534, 65534,
    ]);
  });

  it('holds a lifted wiper at its own end of the travel in a 16-bit store', () => {
    // Open 0.2, closed 0.9: reading 0 lies 0.286 of the travel below open, far beyond the 0.125 of headroom.
    const ends = { open: 0.2, closed: 0.9 };
    const word = toWord(0, wordGain(ends.open, ends.closed, 8), wordOffset(ends.open, ends.closed));
    const store = new Uint16Array([word, saturate(word)]);
    expect(store[0]).toBeGreaterThan(32768);
    expect(store[1]).toBe(0);
  });
});
