/**
 * Commands from host to board: their text, and how it is read. Runs on the board and on the host. SPEC.md beside
 * this file is the authority and shows the bytes.
 *
 * Numbers travel as the 16 hexadecimal digits of the double, because the interpreter misreads most decimals by one
 * unit in the last place; the check is compared as text, because its parseInt is lenient.
 */

/** Codes of the commands; 0 stays unassigned, so that a text of zeros has no meaning. */
export const COMMAND_VERSION = 1;
export const COMMAND_COUNTER = 2;
export const COMMAND_SET = 3;
export const COMMAND_GET = 4;
export const COMMAND_RAW = 5;
export const COMMAND_CAPTURE_BEGIN = 6;
export const COMMAND_CAPTURE_END = 7;
export const COMMAND_STORE = 8;
export const COMMAND_STORED = 9;
export const COMMAND_ZERO = 10;
export const COMMAND_IDENTIFY = 11;
export const COMMAND_STOP = 12;
export const COMMAND_START = 13;
export const COMMAND_RESTART = 14;

/** Subject that stands for all fingers, or for none. */
export const SUBJECT_ALL = 255;

/** Index of each live number of a finger, in COMMAND_SET and COMMAND_GET. */
export const NUMBER_LIMIT = 0;
export const NUMBER_BAND_SQUARED = 1;
export const NUMBER_GAIN = 2;
export const NUMBER_BASE = 3;
export const NUMBER_RISE = 4;
export const NUMBER_SPEED_GAIN = 5;
export const NUMBER_HALF = 6;
export const NUMBER_WORD_GAIN = 7;
export const NUMBER_WORD_OFFSET = 8;

/** Characters of every command text. */
export const COMMAND_CHARS = 34;
/** Characters that the check covers: all before it. */
export const CHECKED_CHARS = 26;

/** Command and tag of a reply to a text that was no command. */
export const NO_COMMAND = 65535;
/** Tags run from 0 to this and start anew. */
export const TAG_MAX = 65534;

export interface Command {
  /** 0-65534, given by the host; a retry has the same one. */
  tag: number;
  code: number;
  /** Finger, channel, or what is asked for; 0-255. */
  subject: number;
  /** 0-255 */
  index: number;
  value: number;
}

/** CRC-32/ISO-HDLC over the characters of a text; signed or unsigned. On the board the native function. */
export type TextCrc32 = (text: string) => number;

/** One double and its four 16-bit quarters, lowest first. */
export interface NumberViews {
  number: Float64Array;
  quarters: Uint16Array;
}

export function createNumberViews(): NumberViews {
  const buffer = new ArrayBuffer(8);
  return { number: new Float64Array(buffer), quarters: new Uint16Array(buffer) };
}

export function createCommand(): Command {
  return { tag: 0, code: 0, subject: 0, index: 0, value: 0 };
}

/** A whole number as hexadecimal digits. @param digits 1-8 */
export function hex(number: number, digits: number): string {
  return `0000000${number.toString(16)}`.slice(-digits);
}

/** The check of a text as it is written: the whole CRC-32, eight digits. */
export function checkText(text: string, crcOf: TextCrc32): string {
  const crc = crcOf(text);
  return hex(crc < 0 ? crc + 4294967296 : crc, 8);
}

function quarterAt(text: string, at: number): number {
  return parseInt(text.substr(at, 4), 16);
}

/**
 * Takes a command apart.
 * @param text what came in the packet, of any type
 * @param command is overwritten, but only by a whole command
 * @param views scratch
 * @returns whether it is a command with a right check
 */
export function readCommand(text: unknown, crcOf: TextCrc32, command: Command, views: NumberViews): boolean {
  if (typeof text !== 'string' || text.length !== COMMAND_CHARS) return false;
  if (checkText(text.substr(0, CHECKED_CHARS), crcOf) !== text.substr(CHECKED_CHARS, 8)) return false;
  command.tag = quarterAt(text, 0);
  command.code = parseInt(text.substr(4, 2), 16);
  command.subject = parseInt(text.substr(6, 2), 16);
  command.index = parseInt(text.substr(8, 2), 16);
  for (let i = 0; i < 4; i++) views.quarters[3 - i] = quarterAt(text, 10 + 4 * i);
  command.value = views.number[0];
  return true;
}
