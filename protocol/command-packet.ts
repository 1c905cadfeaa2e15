/** Host only. Writes commands and the interpreter's packets round them. */
import { CHECKED_CHARS, type Command, checkText, createNumberViews, hex, TAG_MAX } from './commands.ts';
import { crc32 } from './crc32.ts';

const DLE = 0x10;
const SOH = 0x01;
/** Type of the packets that the interpreter parses as JSON and hands to the program: the top bits of the length. */
const EVENT_TYPE = 0x40;
/** Most bytes that a packet can hold. */
const LONGEST_PAYLOAD = 0x1fff;
/** Interrupt, and the two of flow control: no byte of a packet may be one of these. */
const FORBIDDEN = [0x03, 0x11, 0x13];

/** CRC-32 of an ASCII text; stands in for the board's native function. */
export function textCrc32(text: string): number {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return crc32(bytes);
}

function whole(number: number, largest: number, name: string): number {
  if (number >= 0 && number <= largest && Math.floor(number) === number) return number;
  throw new RangeError(`${name} of a command is ${number}; expected a whole number from 0 to ${largest}`);
}

/**
 * The text of a command, 34 characters.
 * @throws RangeError if a field does not fit; the value may be any double
 */
export function commandText(command: Command): string {
  const views = createNumberViews();
  views.number[0] = command.value;
  let text =
    hex(whole(command.tag, TAG_MAX, 'tag'), 4) +
    hex(whole(command.code, 255, 'code'), 2) +
    hex(whole(command.subject, 255, 'subject'), 2) +
    hex(whole(command.index, 255, 'index'), 2);
  for (let i = 3; i >= 0; i--) text += hex(views.quarters[i], 4);
  if (text.length !== CHECKED_CHARS) throw new RangeError(`a command of ${text.length} characters`);
  return text + checkText(text, textCrc32);
}

function isForbidden(byte: number): boolean {
  return FORBIDDEN.indexOf(byte) >= 0;
}

/**
 * Wraps a JSON text into one of the interpreter's event packets; spaces behind it keep 0x03, 0x11 and 0x13 out of the
 * length.
 * @throws RangeError if the text is not printable ASCII, empty or too long
 */
export function eventPacket(json: string): Uint8Array {
  let length = json.length;
  if (length === 0) throw new RangeError('an empty packet: expected a JSON object');
  while (isForbidden(length & 0xff) || isForbidden(EVENT_TYPE | (length >> 8))) length++;
  if (length > LONGEST_PAYLOAD) {
    throw new RangeError(`a packet of ${json.length} characters; expected at most ${LONGEST_PAYLOAD}`);
  }
  const packet = new Uint8Array(4 + length);
  packet[0] = DLE;
  packet[1] = SOH;
  packet[2] = EVENT_TYPE | (length >> 8);
  packet[3] = length & 0xff;
  for (let i = 0; i < length; i++) {
    const code = i < json.length ? json.charCodeAt(i) : 0x20;
    if (code < 0x20 || code > 0x7e) {
      throw new RangeError(`character ${code} at ${i} of a packet; expected printable ASCII`);
    }
    packet[4 + i] = code;
  }
  return packet;
}

/** The bytes that bring a command to a board whose console listens. */
export function commandPacket(command: Command): Uint8Array {
  return eventPacket(`{"t":"${commandText(command)}"}`);
}
