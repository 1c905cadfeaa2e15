/**
 * Layout of the frame: the constants that board and host share. SPEC.md beside this file is the authority and
 * shows the bytes; a test holds the two together.
 */

/** Bytes of every frame: what one BLE notification carries at the default MTU of 23. */
export const FRAME_BYTES = 20;

/**
 * First byte of every frame. Chosen because the other traffic of the line hardly contains it: it is no ASCII
 * (console text), not 0x03, 0x06, 0x11, 0x13 or 0x15 (interrupt, acknowledge, flow control, refusal), not 0x00,
 * 0xF8, 0xFC, 0xFE or 0xFF (what boot text at a lower baud rate is read as: computed, see SPEC.md), it never occurs
 * in UTF-8, and as the high byte of a travel word it would mean 7 % beyond the closed end.
 */
export const SYNC_BYTE = 0xf5;

/** Byte offsets. */
export const SYNC_AT = 0;
export const SEQUENCE_AT = 1;
export const TIME_AT = 2;
export const VALUES_AT = 4;
export const JOYSTICK_X_AT = 14;
export const JOYSTICK_Y_AT = 15;
export const FLAGS_AT = 16;
export const STATUS_AT = 17;
export const CHECK_AT = 18;

/** The same places in a Uint16Array over the frame. */
export const TIME_WORD = 1;
export const FIRST_VALUE_WORD = 2;
export const CHECK_WORD = 9;

/** 16-bit values in a frame. */
export const VALUE_COUNT = 5;
/** Bytes that the check covers: all before it. */
export const CHECKED_BYTES = 18;
/** The check is `(crc >>> CHECK_SHIFT) & 0xffff`: bits 10 to 25 of the CRC-32. */
export const CHECK_SHIFT = 10;

/** A value that was not measured. */
export const INVALID_VALUE = 65535;

/**
 * Travel words. The two captured ends of a finger sit 10 % of the range inside 0 to 65535, so that over- and
 * undershoot do not wrap and the board needs no clamp.
 */
export const TRAVEL_OPEN_WORD = 6553;
export const TRAVEL_CLOSED_WORD = 58982;
/** INVALID_VALUE in its role as a travel word. */
export const TRAVEL_INVALID_WORD = INVALID_VALUE;

/** Device time: one step is 250 us; the 16-bit count wraps after 16.384 s. */
export const TIME_STEPS_PER_SECOND = 4000;
export const TIME_STEP_S = 0.00025;
export const TIME_WRAP_STEPS = 65536;

/** Kinds of frame: bits 5 to 7 of the flags. 0 and 5 to 7 are unassigned. */
export const KIND_HAND = 1;
export const KIND_RAW = 2;
export const KIND_HEALTH = 3;
export const KIND_REPLY = 4;

/** Flags: bits 0 to 3 are the buttons, 1 = pressed. */
export const BUTTONS_MASK = 15;
/** Flags: set on a right hand. */
export const RIGHT_HAND_BIT = 16;
export const KIND_SHIFT = 5;

/** Status: an error was caught since the program started; the health frame has the count. */
export const STATUS_ERRORS = 1;
/** Status: the link was full and at least one frame since the last sent one was dropped by the board. */
export const STATUS_DROPPED = 2;
/** Status: the frame was made more than one frame period late. */
export const STATUS_LATE = 4;
/** Status: no stored calibration was found; travel uses the ends built into the program. */
export const STATUS_UNCALIBRATED = 8;

/** Version of SPEC.md; sent in every health frame. */
export const PROTOCOL_VERSION = 1;

/** Largest count in a health frame; counting stops there, below INVALID_VALUE. */
export const COUNT_MAX = 65534;

/** Result of a command, value 1 of a reply. */
export const RESULT_DONE = 0;
export const RESULT_UNKNOWN_COMMAND = 1;
export const RESULT_BAD_ARGUMENT = 2;
export const RESULT_NOT_NOW = 3;
export const RESULT_FAILED = 4;
/** What came was no command: wrong length or check; nothing was done. */
export const RESULT_DAMAGED = 5;

/** One frame taken apart. The meaning of the values and of the joystick bytes depends on the kind. */
export interface Frame {
  /** 0-255 */
  sequence: number;
  /** Board clock when the frame was packed, 250 us steps, 0-65535. */
  timeSteps: number;
  /** Five words, 0-65535. */
  values: Uint16Array;
  /** 0-255 */
  joystickX: number;
  /** 0-255 */
  joystickY: number;
  /** Bits 0 to 3, 1 = pressed. */
  buttons: number;
  rightHand: boolean;
  /** 0-7; see the KIND constants. */
  kind: number;
  /** Bits; see the STATUS constants. */
  status: number;
}

/** A frame with all fields zero, to be filled again and again. */
export function createFrame(): Frame {
  return {
    sequence: 0,
    timeSteps: 0,
    values: new Uint16Array(VALUE_COUNT),
    joystickX: 0,
    joystickY: 0,
    buttons: 0,
    rightHand: false,
    kind: 0,
    status: 0,
  };
}

/** Whether this version gives the kind a meaning. */
export function isKnownKind(kind: number): boolean {
  return kind >= KIND_HAND && kind <= KIND_REPLY;
}
