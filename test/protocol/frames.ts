/** Shared by the tests of this room: frames to draw, and streams to spoil. */
import crc32Package from 'crc/crc32';
import fc from 'fast-check';
import { crc32 } from '../../protocol/crc32.ts';
import { createFrameViews, encodeFrame } from '../../protocol/encode.ts';
import { createFrame, type Frame, KIND_HAND } from '../../protocol/frame.ts';

export const anyFrame: fc.Arbitrary<Frame> = fc.record({
  sequence: fc.nat(255),
  timeSteps: fc.nat(65535),
  values: fc.uint16Array({ minLength: 5, maxLength: 5 }),
  joystickX: fc.nat(255),
  joystickY: fc.nat(255),
  buttons: fc.nat(15),
  rightHand: fc.boolean(),
  kind: fc.integer({ min: 1, max: 4 }),
  status: fc.nat(255),
});

export function bytesOfFrame(frame: Frame): Uint8Array {
  const views = createFrameViews();
  encodeFrame(frame, views, crc32);
  return views.bytes;
}

/** Hand frame number n of a 100 Hz board. */
export function handFrame(n: number): Uint8Array {
  const frame = { ...createFrame(), sequence: n % 256, timeSteps: (n * 40) % 65536, kind: KIND_HAND };
  for (let i = 0; i < 5; i++) frame.values[i] = 6553 + ((n * 997 + i * 10007) % 52430);
  return bytesOfFrame(frame);
}

export function joined(parts: Uint8Array[]): Uint8Array {
  return new Uint8Array(Buffer.concat(parts));
}

export function ascii(text: string): Uint8Array {
  return new Uint8Array(Buffer.from(text, 'ascii'));
}

/** A copy, since the reassembler hands out the same object every time. */
export function copied(frame: Frame): Frame {
  return { ...frame, values: frame.values.slice() };
}

/** Where frames begin, found by looking at every offset; written without the code under test. */
export function framePlaces(bytes: Uint8Array): number[] {
  const places: number[] = [];
  for (let at = 0; at + 20 <= bytes.length; at++) {
    if (bytes[at] !== 0xf5) continue;
    const check = (crc32Package(Buffer.from(bytes.subarray(at, at + 18))) >>> 10) & 0xffff;
    if (bytes[at + 18] + 256 * bytes[at + 19] === check) places.push(at);
  }
  return places;
}
