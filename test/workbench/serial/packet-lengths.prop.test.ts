import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PACKET_BYTES, padPacket, padProgram } from '../../../workbench/serial/load/packet-lengths.ts';

/** The two length bytes as README_Protocol.md of espruino/Espruino lays them out: three bits of kind, 13 of length. */
function lengthBytes(kind: number, length: number): number[] {
  return [(kind << 5) | (length >> 8), length & 255];
}

const ACTED_ON = [0x03, 0x04, 0x11, 0x13];
const EVALUATE = 1;
const DATA = 4;

describe('lengths of packets', () => {
  it('an expression keeps its text and gets a length without bytes that the console acts on', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 700 }), (text) => {
        const padded = padPacket(text);
        expect(padded.trimEnd()).toBe(text.trimEnd());
        expect(padded.startsWith(text)).toBe(true);
        expect(padded.length - text.length).toBeLessThanOrEqual(2);
        expect(lengthBytes(EVALUATE, padded.length).filter((byte) => ACTED_ON.includes(byte))).toEqual([]);
      }),
    );
  });

  it('a program keeps its text, fills one packet, and no packet of it has such a length', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), (length) => {
        const text = 'x'.repeat(length);
        const padded = padProgram(text);
        expect(padded.startsWith(`${text}\n`)).toBe(true);
        expect(padded.slice(length).trim()).toBe('');
        expect(padded.length).toBeGreaterThanOrEqual(512);
        for (let at = 0; at < padded.length; at += PACKET_BYTES) {
          const bytes = lengthBytes(DATA, Math.min(PACKET_BYTES, padded.length - at));
          expect(bytes.filter((byte) => ACTED_ON.includes(byte))).toEqual([]);
        }
      }),
    );
  });
});
