/**
 * Writes frames. Runs on the board and on the host: stores through typed-array views that are made once, which the
 * board packs little-endian (as every host we know); the views cut each number to its field, modulo its size.
 */
import {
  CHECK_SHIFT,
  CHECK_WORD,
  CHECKED_BYTES,
  FIRST_VALUE_WORD,
  FLAGS_AT,
  FRAME_BYTES,
  type Frame,
  JOYSTICK_X_AT,
  JOYSTICK_Y_AT,
  KIND_SHIFT,
  RIGHT_HAND_BIT,
  SEQUENCE_AT,
  STATUS_AT,
  SYNC_AT,
  SYNC_BYTE,
  TIME_WORD,
  VALUE_COUNT,
} from './frame.ts';

/** Three views of one 20-byte buffer. */
export interface FrameViews {
  /** The whole frame: what is sent. */
  bytes: Uint8Array;
  /** The 18 bytes that the check covers. */
  checked: Uint8Array;
  /** The frame as ten little-endian words. */
  words: Uint16Array;
}

/** CRC-32/ISO-HDLC over a whole array; signed or unsigned. On the board the interpreter's native function. */
export type Crc32 = (bytes: Uint8Array) => number;

/** Views over a new buffer, with the sync byte in place and all else zero. */
export function createFrameViews(): FrameViews {
  const buffer = new ArrayBuffer(FRAME_BYTES);
  const bytes = new Uint8Array(buffer);
  bytes[SYNC_AT] = SYNC_BYTE;
  return { bytes: bytes, checked: new Uint8Array(buffer, 0, CHECKED_BYTES), words: new Uint16Array(buffer) };
}

/**
 * @param sequence any integer; its low 8 bits are sent
 * @param timeSteps board clock in 250 us steps, >= 0; its whole part modulo 65536 is sent
 */
export function writeHeader(
  bytes: Uint8Array,
  words: Uint16Array,
  sequence: number,
  timeSteps: number,
): void {
  words[TIME_WORD] = timeSteps;
  bytes[SEQUENCE_AT] = sequence;
}

/**
 * @param index 0-4
 * @param value 0-65535; a fraction is cut off
 */
export function writeValue(words: Uint16Array, index: number, value: number): void {
  words[FIRST_VALUE_WORD + index] = value;
}

/** Both 0-255. */
export function writeJoystick(bytes: Uint8Array, x: number, y: number): void {
  bytes[JOYSTICK_X_AT] = x;
  bytes[JOYSTICK_Y_AT] = y;
}

/**
 * The flags byte.
 * @param buttons bits 0 to 3, 1 = pressed
 * @param kind one of the KIND constants
 */
export function packFlags(buttons: number, rightHand: boolean, kind: number): number {
  return (kind << KIND_SHIFT) | (rightHand ? RIGHT_HAND_BIT : 0) | buttons;
}

export function writeFlags(bytes: Uint8Array, flags: number): void {
  bytes[FLAGS_AT] = flags;
}

export function writeStatus(bytes: Uint8Array, status: number): void {
  bytes[STATUS_AT] = status;
}

/** Writes the check that belongs to a CRC-32 of the bytes before it, signed or unsigned. */
export function writeCheckOf(words: Uint16Array, crc: number): void {
  words[CHECK_WORD] = crc >>> CHECK_SHIFT;
}

/** Writes the check. Comes last: it covers all other bytes. */
export function writeCheck(words: Uint16Array, checked: Uint8Array, crc32: Crc32): void {
  writeCheckOf(words, crc32(checked));
}

/** Writes all of a frame into the views; the counterpart of decodeFrame. */
export function encodeFrame(frame: Frame, views: FrameViews, crc32: Crc32): void {
  writeHeader(views.bytes, views.words, frame.sequence, frame.timeSteps);
  for (let i = 0; i < VALUE_COUNT; i++) writeValue(views.words, i, frame.values[i]);
  writeJoystick(views.bytes, frame.joystickX, frame.joystickY);
  writeFlags(views.bytes, packFlags(frame.buttons, frame.rightHand, frame.kind));
  writeStatus(views.bytes, frame.status);
  writeCheck(views.words, views.checked, crc32);
}
