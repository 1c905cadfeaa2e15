/** Host only. Takes frames apart. */
import { crc32Of } from './crc32.ts';
import {
  BUTTONS_MASK,
  CHECK_AT,
  CHECK_SHIFT,
  CHECKED_BYTES,
  FLAGS_AT,
  FRAME_BYTES,
  type Frame,
  JOYSTICK_X_AT,
  JOYSTICK_Y_AT,
  KIND_SHIFT,
  RIGHT_HAND_BIT,
  SEQUENCE_AT,
  STATUS_AT,
  SYNC_BYTE,
  TIME_AT,
  VALUE_COUNT,
  VALUES_AT,
} from './frame.ts';

function wordAt(bytes: Uint8Array, offset: number): number {
  return bytes[offset] | (bytes[offset + 1] << 8);
}

/** Whether 20 bytes from `offset` on start with the sync byte and end with the right check. False if cut short. */
export function isFrameAt(bytes: Uint8Array, offset: number): boolean {
  return (
    bytes[offset] === SYNC_BYTE &&
    offset + FRAME_BYTES <= bytes.length &&
    wordAt(bytes, offset + CHECK_AT) === ((crc32Of(bytes, offset, CHECKED_BYTES) >>> CHECK_SHIFT) & 0xffff)
  );
}

/**
 * Reads the fields of the frame at `offset`. Does not look at sync byte or check: ask isFrameAt first.
 * @param frame is overwritten, so that a stream of frames needs one object
 */
export function decodeFrame(bytes: Uint8Array, offset: number, frame: Frame): void {
  const flags = bytes[offset + FLAGS_AT];
  frame.sequence = bytes[offset + SEQUENCE_AT];
  frame.timeSteps = wordAt(bytes, offset + TIME_AT);
  for (let i = 0; i < VALUE_COUNT; i++) frame.values[i] = wordAt(bytes, offset + VALUES_AT + 2 * i);
  frame.joystickX = bytes[offset + JOYSTICK_X_AT];
  frame.joystickY = bytes[offset + JOYSTICK_Y_AT];
  frame.buttons = flags & BUTTONS_MASK;
  frame.rightHand = (flags & RIGHT_HAND_BIT) !== 0;
  frame.kind = flags >> KIND_SHIFT;
  frame.status = bytes[offset + STATUS_AT];
}
