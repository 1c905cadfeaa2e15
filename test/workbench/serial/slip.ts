/** Serial line packets after RFC 1055. */
const END = 0xc0;
const ESC = 0xdb;
const ESC_END = 0xdc;
const ESC_ESC = 0xdd;

export function slipFrame(bytes: Uint8Array): Uint8Array {
  const out = [END];
  for (const byte of bytes) {
    if (byte === END) out.push(ESC, ESC_END);
    else if (byte === ESC) out.push(ESC, ESC_ESC);
    else out.push(byte);
  }
  out.push(END);
  return Uint8Array.from(out);
}

/** @returns what to give received bytes to */
export function slipReader(onPacket: (bytes: Uint8Array) => void): (bytes: Uint8Array) => void {
  let packet: number[] = [];
  let escaped = false;
  return (bytes) => {
    for (const byte of bytes) {
      if (byte === END) {
        if (packet.length > 0) onPacket(Uint8Array.from(packet));
        packet = [];
        escaped = false;
      } else if (byte === ESC) escaped = true;
      else {
        packet.push(escaped ? (byte === ESC_END ? END : ESC) : byte);
        escaped = false;
      }
    }
  };
}
