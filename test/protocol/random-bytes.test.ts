import { describe, expect, it } from 'vitest';
import { createReassembler } from '../../protocol/reassemble.ts';

/**
 * Bytes by a counter and a 32-bit mixing function (two multiply-xor-shift rounds). Not a shift-register generator:
 * those are linear over GF(2), as the CRC is, and could pass the check more or less often than chance.
 */
function fillRandom(words: Uint32Array, seed: number, block: number): void {
  let counter = (seed + Math.imul(block, words.length)) | 0;
  for (let i = 0; i < words.length; i++) {
    counter = (counter + 1) | 0;
    let x = Math.imul(counter ^ (counter >>> 16), 0x2c1b3c6d);
    x = Math.imul(x ^ (x >>> 12), 0x297a2d39);
    words[i] = x ^ (x >>> 15);
  }
}

// A sync byte (2^-8) and a 16-bit check (2^-16) at every offset: 59.6 in 1e9. Of these, 4 kinds of 8 are assigned.
const LONG = process.env.TAUTLINE_VERIFY === '1';
const BYTES = LONG ? 1e9 : 2e7;
const SEED = 20251;
// Poisson: mean + 4 sigma for the long run (60 + 4 * 7.75 = 91). For the short one, mean 1.19, the bound with the
// same tail (3e-5 a side in the normal case) is 7: P(X > 7) = 4e-5.
const MOST = LONG ? 91 : 7;
const LEAST = LONG ? 29 : 0;

describe('random bytes', () => {
  it(`passes no more false frames in ${BYTES} random bytes than a sync byte and a 16-bit check imply`, () => {
    const words = new Uint32Array(16384);
    const bytes = new Uint8Array(words.buffer);
    let frames = 0;
    const stream = createReassembler(() => frames++);
    const blocks = Math.ceil(BYTES / bytes.length);
    let longestPending = 0;
    for (let block = 0; block < blocks; block++) {
      fillRandom(words, SEED, block);
      stream.push(bytes);
      longestPending = Math.max(longestPending, stream.pendingBytes());
    }
    const { unknownKind, falseSync, bytesIn } = stream.counters();
    const passed = frames + unknownKind;
    const expectedSyncs = bytesIn / 256;
    console.info(
      `random bytes: ${bytesIn}, seed ${SEED}: ${passed} passed sync and check (${frames} handed out, ${unknownKind} of unassigned kind), ${falseSync} false sync bytes`,
    );
    expect(longestPending).toBeLessThanOrEqual(19);
    expect(passed).toBeLessThanOrEqual(MOST);
    expect(passed).toBeGreaterThanOrEqual(LEAST);
    // the generator does give the sync byte as often as any other: within 5 sigma
    expect(Math.abs(falseSync - expectedSyncs)).toBeLessThan(5 * Math.sqrt(expectedSyncs));
  }, 120_000);
});
