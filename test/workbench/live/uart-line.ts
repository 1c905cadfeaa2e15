/**
 * A serial line bit by bit: bytes are sent at one rate and read at another, as a UART reads them. 8 data bits, lowest
 * first, no parity, one stop bit; the receiver waits for a falling edge, samples in the middle of each bit, and gives
 * the byte on whether the stop bit was right or not, as drivers do by default (termios IGNPAR/PARMRK unset would give 0
 * for a wrong one; both are without sense).
 */
export function readAtOtherRate(
  bytes: Uint8Array,
  sentBaud: number,
  readBaud: number,
  idleBits: number,
): Uint8Array {
  const levels: number[] = [];
  for (const byte of bytes) {
    levels.push(0);
    for (let bit = 0; bit < 8; bit++) levels.push((byte >> bit) & 1);
    levels.push(1);
  }
  for (let i = 0; i < idleBits; i++) levels.push(1);
  const level = (timeS: number): number => levels[Math.floor(timeS * sentBaud)] ?? 1;
  const endS = levels.length / sentBaud;
  const bitS = 1 / readBaud;
  const fineS = 1 / (16 * readBaud);
  const read: number[] = [];
  let wasHigh = true;
  for (let atS = 0; atS < endS; atS += fineS) {
    const isHigh = level(atS) === 1;
    if (wasHigh && !isHigh) {
      let byte = 0;
      for (let bit = 0; bit < 8; bit++) byte |= level(atS + (1.5 + bit) * bitS) << bit;
      read.push(byte);
      atS += 9.5 * bitS;
      wasHigh = level(atS) === 1;
    } else wasHigh = isHigh;
  }
  return Uint8Array.from(read);
}
