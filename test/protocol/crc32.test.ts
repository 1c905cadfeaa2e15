import crc32Package from 'crc/crc32';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32, crc32Of } from '../../protocol/crc32.ts';

function ascii(text: string): Uint8Array {
  return new Uint8Array(Buffer.from(text, 'ascii'));
}

describe('CRC-32/ISO-HDLC', () => {
  it('gives the check value of the RevEng catalogue', () => {
    expect(crc32(ascii('123456789'))).toBe(0xcbf43926);
  });

  it('gives 0 for no bytes and the published value for one "a"', () => {
    // the second by Python zlib.crc32(b'a')
    expect(crc32(new Uint8Array(0))).toBe(0);
    expect(crc32(ascii('a'))).toBe(0xe8b7be43);
  });

  it('leaves the residue 2144DF1C over a message with its CRC appended little-endian', () => {
    // RevEng gives the residue before the final inversion, DEBB20E3; inverted it is 2144DF1C
    expect(crc32(Uint8Array.from([...ascii('123456789'), 0x26, 0x39, 0xf4, 0xcb]))).toBe(0x2144df1c);
  });

  it('agrees with the crc package over random bytes and any range of them', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), fc.nat(300), fc.nat(300), (bytes, a, b) => {
        const from = Math.min(a, b, bytes.length);
        const to = Math.min(Math.max(a, b), bytes.length);
        expect(crc32Of(bytes, from, to - from)).toBe(crc32Package(Buffer.from(bytes.subarray(from, to))));
        expect(crc32(bytes)).toBe(crc32Package(Buffer.from(bytes)));
      }),
      { numRuns: 500 },
    );
  });
});
