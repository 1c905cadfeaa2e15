import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CalibrationRecord,
  createRecord,
  createRecordViews,
  decodeRecord,
  encodeRecord,
  isLaterRecord,
  RECORD_ABSENT,
  RECORD_DAMAGED,
  RECORD_OTHER_HAND,
  RECORD_OTHER_SETTINGS,
  RECORD_UNKNOWN_VERSION,
  RECORD_VALID,
} from '../../protocol/calibration-record.ts';
import { crc32 } from '../../protocol/crc32.ts';

const SETTINGS = 0x89abcdef;

// Both made with Python: struct.pack('<IHHIIBB6x10d', ...) and ('<IHHII10H', ...), zlib.crc32 behind it.
const VERSION_2 = Buffer.from(
  '544c435202006c0007000000efcdab89010b0000000000000000' +
    '00000000d03f000000000000e83f9a9999999999b93fcdccccccccccec3f' +
    '00000000000000000000000000000000000000000000ea3f000000000000c83f' +
    '00000000000000000000000000000000bc538408',
  'hex',
);
const VERSION_1 = Buffer.from(
  '544c43520100280006000000efcdab89004000c09a1966e6ffffffff00d00030ffffffffbc436645',
  'hex',
);
const ENDS = [0.25, 0.75, 0.1, 0.9, 0, 0, 0.8125, 0.1875, 0, 0];

function sealed(bytes: Uint8Array): Uint8Array {
  const crc = crc32(bytes.subarray(0, bytes.length - 4));
  new DataView(bytes.buffer, bytes.byteOffset).setUint32(bytes.length - 4, crc, true);
  return bytes;
}

function read(bytes: Uint8Array | undefined, settings = SETTINGS, right = true) {
  const record = createRecord();
  const state = decodeRecord(bytes, settings, right, createRecordViews(), record, crc32);
  return { state, record };
}

function changed(at: number, value: number, from: Uint8Array = VERSION_2): Uint8Array {
  const bytes = new Uint8Array(from);
  bytes[at] = value;
  return sealed(bytes);
}

describe('a calibration record', () => {
  it('has the bytes that Python packs', () => {
    const record: CalibrationRecord = {
      sequence: 7,
      settingsId: SETTINGS,
      rightHand: true,
      captured: 0b01011,
      ends: Float64Array.from(ENDS),
    };
    const views = createRecordViews();
    encodeRecord(record, views, crc32);
    expect(Buffer.from(views.bytes).toString('hex')).toBe(VERSION_2.toString('hex'));
    // the board's native CRC gives a signed number on some builds
    encodeRecord(record, views, (bytes) => crc32(bytes) | 0);
    expect(Buffer.from(views.bytes).toString('hex')).toBe(VERSION_2.toString('hex'));
  });

  it('is read as written', () => {
    const { state, record } = read(VERSION_2);
    expect(state).toBe(RECORD_VALID);
    expect(record).toEqual({
      sequence: 7,
      settingsId: SETTINGS,
      rightHand: true,
      captured: 0b01011,
      ends: Float64Array.from(ENDS),
    });
  });

  it('of version 1 is migrated: shares of 65536, 65535 = not captured, the hand of the program', () => {
    const { state, record } = read(VERSION_1);
    expect(state).toBe(RECORD_VALID);
    expect(record.sequence).toBe(6);
    expect(record.rightHand).toBe(true);
    expect(record.captured).toBe(0b01011);
    expect([...record.ends]).toEqual([0.25, 0.75, 6554 / 65536, 58982 / 65536, 0, 0, 0.8125, 0.1875, 0, 0]);
  });

  it.each([
    ['of version 3', changed(4, 3), RECORD_UNKNOWN_VERSION],
    ['of version 0', changed(4, 0), RECORD_UNKNOWN_VERSION],
    ['of other settings', changed(12, 0xee), RECORD_OTHER_SETTINGS],
    ['of the other hand', changed(16, 0), RECORD_OTHER_HAND],
    ['with an end of 64', changed(31, 0x40), RECORD_DAMAGED],
    ['that was captured for a finger with two equal ends', changed(17, 0b01111), RECORD_DAMAGED],
    ['of version 1 with the length of version 2', changed(4, 1), RECORD_DAMAGED],
    ['with another magic', changed(0, 0x55), RECORD_DAMAGED],
    ['that is cut', VERSION_2.subarray(0, 107), RECORD_DAMAGED],
    ['that is too long', Buffer.concat([VERSION_2, Buffer.from([0])]), RECORD_DAMAGED],
    ['of no bytes', new Uint8Array(0), RECORD_DAMAGED],
    ['of erased bytes', new Uint8Array(108).fill(0xff), RECORD_DAMAGED],
    ['that does not exist', undefined, RECORD_ABSENT],
  ])('%s is named so', (_title, bytes, state) => {
    expect(read(bytes).state).toBe(state);
  });

  it('of a longer, unknown version is told from a damaged one', () => {
    const bytes = new Uint8Array(200).fill(7);
    bytes.set(VERSION_2.subarray(0, 16));
    bytes[4] = 9;
    bytes[6] = 200;
    expect(read(sealed(bytes)).state).toBe(RECORD_UNKNOWN_VERSION);
    bytes[50] = 8;
    expect(read(bytes).state).toBe(RECORD_DAMAGED);
  });

  it('with any one or two bits flipped is never valid', () => {
    const bytes = new Uint8Array(VERSION_2);
    const bits = 8 * bytes.length;
    const flip = (bit: number) => {
      bytes[bit >> 3] ^= 1 << (bit & 7);
    };
    const stride = process.env.TAUTLINE_VERIFY === '1' ? 1 : 29;
    let seen = 0;
    for (let one = 0; one < bits; one++) {
      flip(one);
      seen += read(bytes).state === RECORD_DAMAGED ? 1 : 0;
      for (let two = one + 1 + (one % stride); two < bits; two += stride) {
        flip(two);
        if (read(bytes).state !== RECORD_DAMAGED) throw new Error(`bits ${one} and ${two}`);
        flip(two);
      }
      flip(one);
    }
    expect(seen).toBe(864);
  });

  it('keeps every number exactly', () => {
    const end = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.nat(0xffffffff),
        fc.nat(0xffffffff),
        fc.boolean(),
        fc.array(end, { minLength: 10, maxLength: 10 }),
        (sequence, settingsId, rightHand, ends) => {
          const numbers = Float64Array.from(ends);
          let captured = 0;
          for (let i = 0; i < 5; i++) if (ends[2 * i] !== ends[2 * i + 1]) captured |= 1 << i;
          const written = { sequence, settingsId, rightHand, captured, ends: numbers };
          const views = createRecordViews();
          encodeRecord(written, views, crc32);
          const back = read(views.bytes, settingsId, rightHand);
          expect(back.state).toBe(RECORD_VALID);
          expect(back.record).toEqual(written);
        },
      ),
    );
  });
});

describe('the order of records', () => {
  // RFC 1982, section 3.2, with SERIAL_BITS = 32
  it.each([
    [1, 0, true],
    [0, 1, false],
    [0, 0, false],
    [0, 0xffffffff, true],
    [0xffffffff, 0, false],
    [2147483647, 0, true],
    [2147483648, 0, false],
    [0, 2147483648, false],
    [2147483649, 0, false],
    [5, 4294967290, true],
  ])('%d is later than %d: %s', (a, b, later) => {
    expect(isLaterRecord(a, b)).toBe(later);
  });
});
