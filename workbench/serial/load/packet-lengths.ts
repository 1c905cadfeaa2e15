/**
 * Lengths that packets may have. The interpreter's console acts on some bytes wherever they stand, in a packet's two
 * length bytes too: 0x03 interrupts the program, 0x11 and 0x13 are flow control, and 0x04 ends the interpreter's
 * Linux build (read in espruino/Espruino c5ff787). Text contains none of them, so only lengths need care.
 */

/** Bytes of a file in one packet; its length bytes are harmless. */
export const PACKET_BYTES = 512;

const FORBIDDEN = [0x03, 0x04, 0x11, 0x13];

/** Whether a packet of this many bytes (1-8191) can be sent. */
export function isSafeLength(bytes: number): boolean {
  // The high byte carries the kind in its top three bits: for lengths below 768 it is none of the forbidden ones.
  return bytes >= 1 && bytes < 768 && !FORBIDDEN.includes(bytes & 255);
}

/** The text with spaces behind it until its length is safe. @param text at most 760 characters */
export function padPacket(text: string): string {
  let padded = text;
  while (!isSafeLength(padded.length)) padded += ' ';
  return padded;
}

/**
 * A program with a line end and spaces behind it, so that it takes at least one whole packet (the upload tool never
 * reports shorter ones as done) and its last packet has a safe length.
 */
export function padProgram(text: string): string {
  let padded = text.endsWith('\n') ? text : `${text}\n`;
  while (padded.length < PACKET_BYTES || !isLastSafe(padded.length)) padded += ' ';
  return padded;
}

function isLastSafe(length: number): boolean {
  const last = length % PACKET_BYTES;
  return last === 0 || isSafeLength(last);
}
