import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeFrame, isFrameAt } from '../../protocol/decode.ts';
import { createFrame, type Frame } from '../../protocol/frame.ts';
import { createReassembler, type Reassembler } from '../../protocol/reassemble.ts';
import { anyFrame, ascii, bytesOfFrame, copied, framePlaces, handFrame, joined } from './frames.ts';

/** Cuts bytes into chunks of the given sizes, over and over; the sizes may be 0. */
function pushInChunks(stream: Reassembler, bytes: Uint8Array, sizes: number[]): void {
  let at = 0;
  for (let i = 0; at < bytes.length; i++) {
    const size = sizes.length ? sizes[i % sizes.length] : bytes.length;
    stream.push(bytes.slice(at, at + size));
    expect(stream.pendingBytes()).toBeLessThanOrEqual(19);
    at += size;
  }
}

function expectAllBytesCounted(stream: Reassembler): void {
  const c = stream.counters();
  const strays = c.acknowledgeBytes + c.flowControlBytes + c.textBytes + c.garbageBytes;
  expect(20 * (c.framesGood + c.unknownKind) + strays + stream.pendingBytes()).toBe(c.bytesIn);
}

const chunkSizes = fc
  .array(fc.oneof(fc.integer({ min: 1, max: 4 }), fc.nat(50)), { maxLength: 8 })
  .map((sizes) => {
    return sizes.some((size) => size > 0) ? sizes : [];
  });
const console_ = fc.oneof(
  fc.constantFrom('>', 'ERR: 17\r\n', 'Atten:3\n').map(ascii),
  fc.constantFrom(6, 21, 0, 255, 0xf5).map((byte) => Uint8Array.of(byte)),
  fc.uint8Array({ maxLength: 30 }),
);

describe('frame properties', () => {
  it('decode(encode(frame)) is the frame', () => {
    fc.assert(
      fc.property(anyFrame, (frame) => {
        const bytes = bytesOfFrame(frame);
        const seen = createFrame();
        expect(isFrameAt(bytes, 0)).toBe(true);
        decodeFrame(bytes, 0, seen);
        expect(seen).toEqual(frame);
      }),
      { numRuns: 500 },
    );
  });
});

describe('stream properties', () => {
  it('gives the same frames, strays and counts for any chunking', () => {
    const part = fc.oneof(anyFrame.map(bytesOfFrame), console_);
    fc.assert(
      fc.property(fc.array(part, { maxLength: 20 }), chunkSizes, (parts, sizes) => {
        const bytes = joined(parts);
        const heard = [[], sizes].map((cuts) => {
          const frames: Frame[] = [];
          const strays: number[] = [];
          const stream = createReassembler(
            (frame) => frames.push(copied(frame)),
            (byte) => strays.push(byte),
          );
          pushInChunks(stream, bytes, cuts);
          expectAllBytesCounted(stream);
          stream.end();
          expectAllBytesCounted(stream);
          return { frames, strays, counters: stream.counters() };
        });
        expect(heard[1]).toEqual(heard[0]);
      }),
      { numRuns: 300 },
    );
  });

  it('finds every frame between other bytes, in order', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(console_, anyFrame), { maxLength: 15 }), chunkSizes, (pairs, sizes) => {
        const bytes = joined(pairs.flatMap(([noise, frame]) => [noise, bytesOfFrame(frame)]));
        // noise and frame may by chance make up one more frame (about 1e-7 a run): leave that out
        fc.pre(framePlaces(bytes).length === pairs.length);
        const frames: Frame[] = [];
        const stream = createReassembler((frame) => frames.push(copied(frame)));
        pushInChunks(stream, bytes, sizes);
        expect(frames).toEqual(pairs.map(([, frame]) => frame));
      }),
      { numRuns: 300 },
    );
  });

  it('loses with any cut only the frames that the cut touches', () => {
    const count = 12;
    const row = joined(Array.from({ length: count }, (_, n) => handFrame(n)));
    fc.assert(
      fc.property(fc.nat(row.length), fc.nat(80), chunkSizes, (from, length, sizes) => {
        const to = Math.min(from + length, row.length);
        const bytes = joined([row.subarray(0, from), row.subarray(to)]);
        const whole = Array.from({ length: count }, (_, n) => n).filter(
          (n) => from === to || 20 * n + 20 <= from || 20 * n >= to,
        );
        fc.pre(framePlaces(bytes).length === whole.length);
        const seen: number[] = [];
        const stream = createReassembler((frame) => seen.push(frame.sequence));
        pushInChunks(stream, bytes, sizes);
        expect(seen).toEqual(whole);
      }),
      { numRuns: 500 },
    );
  });

  it('never throws on random bytes, keeps at most 19 and hands out exactly the frames that are there', () => {
    // one byte in four is a sync byte, so that false starts overlap
    const byte = fc.oneof({ weight: 3, arbitrary: fc.nat(255) }, { weight: 1, arbitrary: fc.constant(0xf5) });
    fc.assert(
      fc.property(fc.array(byte, { maxLength: 400 }), chunkSizes, (list, sizes) => {
        const bytes = Uint8Array.from(list);
        let frames = 0;
        const stream = createReassembler(() => frames++);
        pushInChunks(stream, bytes, sizes);
        expectAllBytesCounted(stream);
        const { unknownKind, falseSync } = stream.counters();
        stream.end();
        const places = framePlaces(bytes);
        expect(frames + unknownKind).toBe(places.length);
        expect(falseSync).toBeLessThanOrEqual(list.filter((b) => b === 0xf5).length);
        if (places.length === 0) {
          expect(stream.counters().falseSync).toBe(list.filter((b) => b === 0xf5).length);
        }
      }),
      { numRuns: 200 },
    );
  });
});
