import { describe, expect, it } from 'vitest';
import { crc32 } from '../../protocol/crc32.ts';
import { isFrameAt } from '../../protocol/decode.ts';
import { createFrameViews, encodeFrame, writeCheck } from '../../protocol/encode.ts';
import { createFrame, KIND_HAND } from '../../protocol/frame.ts';

/**
 * The CRC is linear over GF(2): whether an error pattern is missed depends on the pattern alone. The syndrome of one
 * flipped bit is the change it makes to (computed check XOR received check); a pattern is missed exactly if the
 * syndromes of its bits cancel out. Bits in the order of a UART, bit 0 of each byte first; 144 bits of data, then the
 * 16 of the check.
 */
function syndromes(checkOf: (crc: number) => number): number[] {
  const clean = checkOf(crc32(new Uint8Array(18)));
  const found: number[] = [];
  for (let bit = 0; bit < 160; bit++) {
    if (bit >= 144) {
      found.push(1 << (bit - 144));
      continue;
    }
    const bytes = new Uint8Array(18);
    bytes[bit >> 3] = 1 << (bit & 7);
    found.push(checkOf(crc32(bytes)) ^ clean);
  }
  return found;
}

function missedPairs(s: number[]): number {
  let missed = 0;
  for (let i = 0; i < s.length; i++) for (let j = i + 1; j < s.length; j++) if (s[i] === s[j]) missed++;
  return missed;
}

function missedTriples(s: number[]): number[][] {
  const missed: number[][] = [];
  for (let i = 0; i < s.length; i++)
    for (let j = i + 1; j < s.length; j++)
      for (let k = j + 1; k < s.length; k++) if ((s[i] ^ s[j] ^ s[k]) === 0) missed.push([i, j, k]);
  return missed;
}

function bursts(s: number[], longest: number): { patterns: number; missed: number[][] } {
  let patterns = 0;
  const missed: number[][] = [];
  for (let first = 0; first < s.length; first++) {
    const width = Math.min(longest, s.length - first) - 1;
    for (let tail = 0; tail < 1 << width; tail++) {
      let sum = s[first];
      for (let k = 0; k < width; k++) if ((tail >> k) & 1) sum ^= s[first + 1 + k];
      patterns++;
      if (sum === 0) {
        const bits = [first];
        for (let k = 0; k < width; k++) if ((tail >> k) & 1) bits.push(first + 1 + k);
        missed.push(bits);
      }
    }
  }
  return { patterns, missed };
}

/** The check as the encoder itself stores it. */
function storedCheck(crc: number): number {
  const views = createFrameViews();
  writeCheck(views.words, views.checked, () => crc);
  return views.bytes[18] | (views.bytes[19] << 8);
}

const ours = syndromes(storedCheck);
// Counts from an exhaustive run of an independent Python program on zlib.crc32, over all 160 bits.
describe('the check', () => {
  it('misses no 1-bit and no 2-bit error', () => {
    expect(ours.filter((s) => s === 0)).toEqual([]);
    expect(missedPairs(ours)).toBe(0);
  });

  it('misses exactly 4 of the 3-bit errors', () => {
    expect(missedTriples(ours)).toHaveLength(4);
  });

  it('misses exactly 90 of the 4784127 bursts of up to 16 bits', () => {
    const all = bursts(ours, 16);
    expect(all.patterns).toBe(4784127);
    expect(all.missed).toHaveLength(90);
  });

  it('misses 3 of the 3-bit errors if its own bits are left out of the count', () => {
    expect(missedTriples(ours.slice(0, 144))).toHaveLength(3);
  });

  it('is better than the lowest or the highest 16 bits, which miss three 2-bit errors each', () => {
    expect(missedPairs(syndromes((crc) => crc & 0xffff))).toBe(3);
    expect(missedPairs(syndromes((crc) => crc >>> 16))).toBe(3);
  });

  it('takes or refuses real frames as the syndromes say', () => {
    const views = createFrameViews();
    const frame = { ...createFrame(), sequence: 200, timeSteps: 51234, kind: KIND_HAND };
    frame.values.set([6553, 11111, 23456, 45678, 58982]);
    encodeFrame(frame, views, crc32);
    const spoilt = (bits: number[]) => {
      const bytes = views.bytes.slice();
      for (const bit of bits) bytes[bit >> 3] ^= 1 << (bit & 7);
      return isFrameAt(bytes, 0);
    };
    expect(spoilt([])).toBe(true);
    for (let bit = 0; bit < 160; bit++) expect(spoilt([bit])).toBe(false);
    // bits 0 to 7 are the sync byte: hit there, it is no frame in any case
    for (const bits of [...missedTriples(ours), ...bursts(ours, 16).missed])
      expect(spoilt(bits)).toBe(bits[0] > 7);
  });
});
