import { describe, expect, it } from 'vitest';
import { overflows, saturate, toWord } from '../../../firmware/chain/calibrate.ts';
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

describe('the test for words out of range', () => {
  // by the definition of the word: 0 to 65534 mean a travel
  it.each([-70000, -65536, -1.5, -1, 65535, 65535.4, 65536, 131072, 1e8])('finds %d', (word) => {
    expect(overflows(word)).toBe(true);
  });

  it('lets every word of the range pass that a store would cut to itself', () => {
    for (let word = 0; word <= 65534; word++) expect(overflows(word), String(word)).toBe(false);
  });

  it('misses none: what it lets pass is stored as 0 to 65534', () => {
    const store = new Uint16Array(1);
    for (let i = -4000; i < 4000; i++) {
      for (const edge of [0, 65535]) {
        const word = edge + i / 1000;
        if (overflows(word)) continue;
        store[0] = word;
        expect(store[0], String(word)).toBeLessThan(65535);
        expect(Math.abs(store[0] - word), String(word)).toBeLessThan(1);
      }
    }
  });
});
