import { FRAME_BYTES, SYNC_BYTE } from '../../protocol/frame.ts';

/** A frame as a plain parser hands it on: a new object each time. */
export interface ParsedFrame {
  sequence: number;
  timeSteps: number;
  values: number[];
  joystick: { x: number; y: number };
  buttons: boolean[];
  rightHand: boolean;
  kind: number;
  status: number;
  /** Unwrapped device time, s. */
  deviceS: number;
  step: number;
}

const TABLE = Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc >>> 0;
});

function crc32(bytes: number[]): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ TABLE[(crc ^ byte) & 0xff];
  return (crc ^ 0xffffffff) >>> 0;
}

/** Looks for frames byte by byte; a failed one is searched again from its second byte on. */
export class FrameParser {
  strayBytes = 0;
  lost = 0;
  #onFrame: (frame: ParsedFrame) => void;
  #buffer: number[] = [];
  #last: ParsedFrame | undefined;

  constructor(onFrame: (frame: ParsedFrame) => void) {
    this.#onFrame = onFrame;
  }

  push(chunk: Uint8Array): void {
    for (const byte of chunk) this.#pushByte(byte);
  }

  #pushByte(byte: number): void {
    if (this.#buffer.length === 0 && byte !== SYNC_BYTE) {
      this.strayBytes++;
      return;
    }
    this.#buffer.push(byte);
    if (this.#buffer.length < FRAME_BYTES) return;
    const bytes = this.#buffer;
    this.#buffer = [];
    const check = bytes[18] | (bytes[19] << 8);
    if (check === ((crc32(bytes.slice(0, 18)) >>> 10) & 0xffff)) {
      this.#emit(bytes);
      return;
    }
    this.strayBytes++;
    for (const again of bytes.slice(1)) this.#pushByte(again);
  }

  #emit(bytes: number[]): void {
    const word = (at: number) => bytes[at] | (bytes[at + 1] << 8);
    const flags = bytes[16];
    const kind = flags >> 5;
    if (kind < 1 || kind > 4) return;
    const last = this.#last;
    const timeSteps = word(2);
    const step = last ? ((bytes[1] - last.sequence + 384) & 255) - 128 : 1;
    if (step > 1) this.lost += step - 1;
    const elapsed = last ? (timeSteps - last.timeSteps) & 0xffff : 0;
    const frame: ParsedFrame = {
      sequence: bytes[1],
      timeSteps,
      values: [0, 1, 2, 3, 4].map((i) => word(4 + 2 * i)),
      joystick: { x: bytes[14], y: bytes[15] },
      buttons: [1, 2, 4, 8].map((bit) => (flags & bit) !== 0),
      rightHand: (flags & 16) !== 0,
      kind,
      status: bytes[17],
      deviceS: last ? last.deviceS + elapsed * 0.00025 : timeSteps * 0.00025,
      step,
    };
    this.#last = frame;
    this.#onFrame(frame);
  }
}
