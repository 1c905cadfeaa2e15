import { describe, expect, it } from 'vitest';
import { crc32 } from '../../protocol/crc32.ts';
import { decodeFrame, isFrameAt } from '../../protocol/decode.ts';
import {
  createFrameViews,
  encodeFrame,
  packFlags,
  writeHeader,
  writeJoystick,
  writeValue,
} from '../../protocol/encode.ts';
import { createFrame, type Frame, isKnownKind } from '../../protocol/frame.ts';

/**
 * Made by Python 3: struct.pack('<BBH5HBBBB', 0xF5, sequence, time, *values, x, y, flags, status), then
 * struct.pack('<H', (zlib.crc32(first18) >> 10) & 0xffff). Fields: sequence, time, values, x, y, buttons, right, kind,
 * status.
 */
const GOLDEN: [string, string, Frame][] = [
  [
    'a moving right hand',
    'f52aa00f9919cc4c008066e6ffff807f3500bd06',
    made(42, 4000, [6553, 19660, 32768, 58982, 65535], 128, 127, 5, true, 1, 0),
  ],
  [
    'raw reads at both wraps',
    'f5ffffffff0700080308fe07ff0703144000227b',
    made(255, 65535, [2047, 2048, 2051, 2046, 2047], 3, 20, 0, false, 2, 0),
  ],
  [
    'health',
    'f5000000800effff07000200030164007003b40a',
    made(0, 0, [3712, 65535, 7, 2, 259], 100, 0, 0, true, 3, 3),
  ],
  [
    'a reply',
    'f5012800110000002639f4cb0900000080082eda',
    made(1, 40, [17, 0, 14630, 52212, 9], 0, 0, 0, false, 4, 8),
  ],
  [
    'all zero but the kind',
    'f50000000000000000000000000000002000be59',
    made(0, 0, [0, 0, 0, 0, 0], 0, 0, 0, false, 1, 0),
  ],
  [
    'all ones but the kind',
    'f5ffffffffffffffffffffffffffffff9fff43ab',
    made(255, 65535, [65535, 65535, 65535, 65535, 65535], 255, 255, 15, true, 4, 255),
  ],
  [
    'an unassigned kind',
    'f5096801010002000300040005000607e800bebe',
    made(9, 360, [1, 2, 3, 4, 5], 6, 7, 8, false, 7, 0),
  ],
];

function made(
  sequence: number,
  timeSteps: number,
  values: number[],
  joystickX: number,
  joystickY: number,
  buttons: number,
  rightHand: boolean,
  kind: number,
  status: number,
): Frame {
  return {
    sequence,
    timeSteps,
    values: Uint16Array.from(values),
    joystickX,
    joystickY,
    buttons,
    rightHand,
    kind,
    status,
  };
}

function bytesOf(hex: string): Uint8Array {
  return new Uint8Array(Buffer.from(hex, 'hex'));
}

describe('frames made by Python', () => {
  it.each(GOLDEN)('come out of the encoder byte for byte: %s', (_name, hex, frame) => {
    const views = createFrameViews();
    encodeFrame(frame, views, crc32);
    expect(Buffer.from(views.bytes).toString('hex')).toBe(hex);
  });

  it.each(GOLDEN)('are taken apart, also in the middle of other bytes: %s', (_name, hex, frame) => {
    const bytes = bytesOf(`f5f500${hex}f5`);
    expect(isFrameAt(bytes, 3)).toBe(true);
    const seen = createFrame();
    decodeFrame(bytes, 3, seen);
    expect(seen).toEqual(frame);
  });

  it.each(GOLDEN)('are refused when cut short by one byte or shifted: %s', (_name, hex) => {
    expect(isFrameAt(bytesOf(hex).subarray(0, 19), 0)).toBe(false);
    expect(isFrameAt(bytesOf(`${hex}00`), 1)).toBe(false);
  });
});

describe('writing a frame', () => {
  it('cuts sequence, time, values and joystick to their fields', () => {
    const views = createFrameViews();
    writeHeader(views.bytes, views.words, 256 + 7, 65536 * 3 + 5.9);
    writeValue(views.words, 4, 1234.99);
    writeJoystick(views.bytes, 255, 0);
    // by hand: f5 07 0500 ... d204 ff 00, check still 0
    expect(Buffer.from(views.bytes).toString('hex')).toBe('f50705000000000000000000d204ff0000000000');
  });

  it('takes a signed CRC for the same as an unsigned one', () => {
    const signed = createFrameViews();
    const unsigned = createFrameViews();
    encodeFrame(GOLDEN[1][2], signed, (bytes) => crc32(bytes) | 0);
    encodeFrame(GOLDEN[1][2], unsigned, crc32);
    expect(signed.bytes).toEqual(unsigned.bytes);
  });

  it('packs the flags as the specification says', () => {
    expect(packFlags(0b1010, true, 3)).toBe(0b011_1_1010);
    expect(packFlags(0, false, 7)).toBe(0b111_0_0000);
  });
});

describe('kinds', () => {
  it('are known from 1 to 4', () => {
    expect([0, 1, 2, 3, 4, 5, 6, 7].map(isKnownKind)).toEqual([
      false,
      true,
      true,
      true,
      true,
      false,
      false,
      false,
    ]);
  });
});
