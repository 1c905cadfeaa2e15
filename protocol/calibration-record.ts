/**
 * The stored calibration of one hand: bytes in, numbers out, and back. Runs on the board and on the host. SPEC.md
 * beside this file is the authority and shows the bytes.
 */
import type { Crc32 } from './encode.ts';

/** First four bytes of every record, "TLCR" as a little-endian word. */
export const RECORD_MAGIC = 0x52434c54;
/** Version that encodeRecord writes. */
export const RECORD_VERSION = 2;
export const RECORD_BYTES = 108;
/** Version 1: ends as 16-bit shares of full scale, no hand, nothing left out. */
export const RECORD_V1_BYTES = 40;
/** Fingers in every record, in frame order; those without an end of their own are not in `captured`. */
export const RECORD_FINGERS = 5;
/** Sequence numbers lie on a circle of so many. */
export const RECORD_SEQUENCES = 4294967296;

/** Bytes that mean the same in all versions: magic, version, length, sequence, settings id, and the CRC at the end. */
const SMALLEST_BYTES = 20;
const CHECKED_BYTES = 104;
const ENDS_AT = 24;
const HAND_AT = 16;
const CAPTURED_AT = 17;

/** What a stored record is worth to this program. */
export const RECORD_VALID = 0;
/** There is no such file. */
export const RECORD_ABSENT = 1;
/** Cut, flipped, or numbers that no calibration has. */
export const RECORD_DAMAGED = 2;
/** Whole, but of a version that this program does not know: kept. */
export const RECORD_UNKNOWN_VERSION = 3;
/** Whole, but captured for another board, other pins or another build: kept. */
export const RECORD_OTHER_SETTINGS = 4;
/** Whole, but of the other hand: kept. */
export const RECORD_OTHER_HAND = 5;

/** One calibration. Overwritten by decodeRecord, so that two of them serve a program for good. */
export interface CalibrationRecord {
  /** 0 to 2^32 - 1; the next save has the next number. */
  sequence: number;
  /** 32-bit id of what the ends depend on: rig, board, pins. */
  settingsId: number;
  rightHand: boolean;
  /** Bit i: finger i has ends of its own. */
  captured: number;
  /** Open and closed end of each finger as mean readings of 0 to 1, finger by finger; 0 where not captured. */
  ends: Float64Array;
}

/** One buffer of a record with its views. */
export interface RecordViews {
  bytes: Uint8Array;
  /** All but the CRC. */
  checked: Uint8Array;
  halves: Uint16Array;
  /** The ten ends. */
  ends: Float64Array;
}

export function createRecord(): CalibrationRecord {
  return { sequence: 0, settingsId: 0, rightHand: false, captured: 0, ends: new Float64Array(10) };
}

export function createRecordViews(): RecordViews {
  const buffer = new ArrayBuffer(RECORD_BYTES);
  return {
    bytes: new Uint8Array(buffer),
    checked: new Uint8Array(buffer, 0, CHECKED_BYTES),
    halves: new Uint16Array(buffer),
    ends: new Float64Array(buffer, ENDS_AT, 2 * RECORD_FINGERS),
  };
}

/** A 32-bit word from four bytes, unsigned; by arithmetic, so that no 31-bit limit is in the way. */
function wordAt(bytes: Uint8Array, at: number): number {
  return bytes[at] + 256 * bytes[at + 1] + 65536 * (bytes[at + 2] + 256 * bytes[at + 3]);
}

function halfAt(bytes: Uint8Array, at: number): number {
  return bytes[at] + 256 * bytes[at + 1];
}

/** Stores a 32-bit word as two halves. @param at index of the lower half */
function putWord(halves: Uint16Array, at: number, word: number): void {
  halves[at] = word % 65536;
  halves[at + 1] = (word - (word % 65536)) / 65536;
}

/** Whether two numbers can be the ends of a finger: mean readings, apart from each other. NaN cannot. */
export function areEnds(open: number, closed: number): boolean {
  return open >= 0 && open <= 1 && closed >= 0 && closed <= 1 && open !== closed;
}

/** Whether all captured fingers of a record have ends. */
export function hasGoodEnds(captured: number, ends: Float32Array | Float64Array): boolean {
  for (let i = 0; i < RECORD_FINGERS; i++) {
    if (captured & (1 << i) && !areEnds(ends[2 * i], ends[2 * i + 1])) return false;
  }
  return true;
}

/**
 * RFC 1982 with SERIAL_BITS = 32: whether `a` is later than `b`. Numbers exactly half the circle apart, which the RFC
 * leaves undefined, are not later than each other.
 */
export function isLaterRecord(a: number, b: number): boolean {
  const distance = a >= b ? a - b : a - b + RECORD_SEQUENCES;
  return distance > 0 && distance < RECORD_SEQUENCES / 2;
}

/** Writes a record of the present version into the views; the CRC comes last. */
export function encodeRecord(record: CalibrationRecord, views: RecordViews, crc32: Crc32): void {
  const bytes = views.bytes;
  const halves = views.halves;
  putWord(halves, 0, RECORD_MAGIC);
  halves[2] = RECORD_VERSION;
  halves[3] = RECORD_BYTES;
  putWord(halves, 4, record.sequence);
  putWord(halves, 6, record.settingsId);
  bytes[HAND_AT] = record.rightHand ? 1 : 0;
  bytes[CAPTURED_AT] = record.captured;
  for (let i = 18; i < ENDS_AT; i++) bytes[i] = 0;
  for (let i = 0; i < 2 * RECORD_FINGERS; i++) views.ends[i] = record.ends[i];
  // the native function may give a signed number
  const crc = crc32(views.checked);
  putWord(halves, 52, crc < 0 ? crc + RECORD_SEQUENCES : crc);
}

function readEnds(bytes: Uint8Array, views: RecordViews, record: CalibrationRecord): void {
  for (let i = 0; i < RECORD_BYTES; i++) views.bytes[i] = bytes[i];
  record.captured = bytes[CAPTURED_AT];
  for (let i = 0; i < 2 * RECORD_FINGERS; i++) record.ends[i] = views.ends[i];
}

/** Version 1 told no hand (its settings id names one) and gave 65535 for an end that was not captured. */
function migrateEnds(bytes: Uint8Array, record: CalibrationRecord): void {
  let captured = 0;
  for (let i = 0; i < RECORD_FINGERS; i++) {
    const open = halfAt(bytes, 16 + 4 * i);
    const closed = halfAt(bytes, 18 + 4 * i);
    const known = open !== 65535 && closed !== 65535;
    if (known) captured = captured + (1 << i);
    record.ends[2 * i] = known ? open / 65536 : 0;
    record.ends[2 * i + 1] = known ? closed / 65536 : 0;
  }
  record.captured = captured;
}

/**
 * Reads a stored record.
 * @param bytes as stored; undefined if there is no such file
 * @param settingsId of this program, 32 bits
 * @param views scratch; a valid record ends up in them as far as it is of the present version
 * @param record is overwritten: wholly if valid, else with sequence and settings id as far as they are known
 * @returns one of the RECORD codes
 */
export function decodeRecord(
  bytes: Uint8Array | undefined,
  settingsId: number,
  rightHand: boolean,
  views: RecordViews,
  record: CalibrationRecord,
  crc32: Crc32,
): number {
  record.sequence = 0;
  record.settingsId = 0;
  record.captured = 0;
  if (!bytes) return RECORD_ABSENT;
  const length = bytes.length;
  if (length < SMALLEST_BYTES || wordAt(bytes, 0) !== RECORD_MAGIC || halfAt(bytes, 6) !== length) {
    return RECORD_DAMAGED;
  }
  const crc = crc32(bytes.subarray(0, length - 4));
  if ((crc < 0 ? crc + RECORD_SEQUENCES : crc) !== wordAt(bytes, length - 4)) return RECORD_DAMAGED;
  const version = halfAt(bytes, 4);
  record.sequence = wordAt(bytes, 8);
  record.settingsId = wordAt(bytes, 12);
  record.rightHand = rightHand;
  if (version < 1 || version > RECORD_VERSION) return RECORD_UNKNOWN_VERSION;
  if (length !== (version === 1 ? RECORD_V1_BYTES : RECORD_BYTES)) return RECORD_DAMAGED;
  if (record.settingsId !== settingsId) return RECORD_OTHER_SETTINGS;
  if (version === 1) {
    migrateEnds(bytes, record);
  } else {
    if (bytes[HAND_AT] !== (rightHand ? 1 : 0)) return RECORD_OTHER_HAND;
    readEnds(bytes, views, record);
  }
  return hasGoodEnds(record.captured, record.ends) ? RECORD_VALID : RECORD_DAMAGED;
}
