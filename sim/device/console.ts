/**
 * The listening end of the interpreter's console, as far as a host uses it: event packets are acknowledged and their
 * text goes to the program. All else is ignored, as by a program that runs.
 */

const [DLE, SOH, ACK] = [0x10, 0x01, 0x06];
const EVENT_TYPE = 0x40;

export interface PacketConsole {
  receive(bytes: Uint8Array): void;
}

/**
 * @param onText is given the `t` of each packet's object
 * @param answer sends the acknowledgement
 */
export function createPacketConsole(
  onText: (text: unknown) => void,
  answer: (bytes: Uint8Array) => void,
): PacketConsole {
  let held: number[] = [];

  function take(): boolean {
    while (held.length > 0 && held[0] !== DLE) held.shift();
    if (held.length < 4) return false;
    const isEvent = held[1] === SOH && (held[2]! & 0xe0) === EVENT_TYPE;
    if (!isEvent) {
      held.shift();
      return true;
    }
    const length = ((held[2]! & 0x1f) << 8) | held[3]!;
    if (held.length < 4 + length) return false;
    const text = String.fromCharCode(...held.slice(4, 4 + length));
    held = held.slice(4 + length);
    answer(Uint8Array.of(ACK));
    try {
      onText((JSON.parse(text) as { t?: unknown }).t);
    } catch {
      // the interpreter drops what is no JSON
    }
    return true;
  }

  return {
    receive(bytes) {
      for (const byte of bytes) held.push(byte);
      while (take());
    },
  };
}
