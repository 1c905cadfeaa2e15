/**
 * Host only. Finds frames in a stream of bytes that also carries boot text, console prints, acknowledge bytes and
 * damage, cut into chunks anywhere. Keeps at most 19 bytes between chunks and makes no objects per frame.
 */
import { decodeFrame, isFrameAt } from './decode.ts';
import { createFrame, FRAME_BYTES, type Frame, isKnownKind, SYNC_BYTE } from './frame.ts';
import {
  STRAY_ACKNOWLEDGE,
  STRAY_CLASS,
  STRAY_FLOW_CONTROL,
  STRAY_GARBAGE,
  STRAY_TEXT,
} from './stray-bytes.ts';

/** Every byte is in exactly one of: 20 per frame (good or of unknown kind), the four byte counts, pending. */
export interface StreamCounters {
  bytesIn: number;
  /** Frames handed on. */
  framesGood: number;
  /** Frames with a right check whose kind this version does not know: skipped whole. */
  unknownKind: number;
  /** Sync bytes that no right check followed. Each is in garbageBytes too. */
  falseSync: number;
  /** 0x06 and 0x15 between frames. */
  acknowledgeBytes: number;
  /** 0x11 and 0x13 between frames. */
  flowControlBytes: number;
  /** Printable ASCII, line ends, tab, backspace and escape between frames (or inside damaged ones). */
  textBytes: number;
  /** All other bytes between frames or inside damaged ones. */
  garbageBytes: number;
}

export interface Reassembler {
  /**
   * Takes the next bytes. The chunk is not kept. Must not be called from inside the callbacks; if one of them throws,
   * the rest of the chunk is lost.
   */
  push(chunk: Uint8Array): void;
  /** The stream is over or silent: what waits for the rest of a frame is counted as stray. */
  end(): void;
  /** Bytes that wait for the rest of a frame, 0-19. */
  pendingBytes(): number;
  /** A copy of the counts so far. */
  counters(): StreamCounters;
}

const LONGEST_REST = FRAME_BYTES - 1;

/**
 * @param onFrame is called for each frame, in order; its argument is the same object every time
 * @param onStray is called for each byte that belongs to no frame, in order
 */
export function createReassembler(
  onFrame: (frame: Frame) => void,
  onStray?: (byte: number) => void,
): Reassembler {
  const sync = SYNC_BYTE;
  const classes = STRAY_CLASS;
  const frame = createFrame();
  const strays = new Float64Array(4);
  /** The rest of the last chunk, then as much of the new one as completes any frame that begins in it. */
  const rest = new Uint8Array(2 * LONGEST_REST);
  let restLength = 0;
  let bytesIn = 0;
  let framesGood = 0;
  let unknownKind = 0;
  let falseSync = 0;

  function stray(byte: number): void {
    strays[classes[byte]]++;
    if (onStray) onStray(byte);
  }

  /**
   * Consumes bytes from `from` up to `limit`. A frame that begins before `limit` may end later, up to `end`.
   * @returns where it stopped: `limit` or beyond, or a sync byte before it whose frame is not complete at `end`
   */
  function scan(bytes: Uint8Array, from: number, limit: number, end: number): number {
    let at = from;
    while (at < limit) {
      if (bytes[at] !== sync) {
        stray(bytes[at]);
        at++;
      } else if (at + FRAME_BYTES > end) {
        return at;
      } else if (isFrameAt(bytes, at)) {
        decodeFrame(bytes, at, frame);
        at += FRAME_BYTES;
        if (isKnownKind(frame.kind)) {
          framesGood++;
          onFrame(frame);
        } else unknownKind++;
      } else {
        // only this byte is given up: a whole frame may begin inside the 20 that failed
        falseSync++;
        stray(bytes[at]);
        at++;
      }
    }
    return at;
  }

  function keep(bytes: Uint8Array, from: number, end: number): void {
    for (let i = from; i < end; i++) rest[i - from] = bytes[i];
    restLength = end - from;
  }

  function push(chunk: Uint8Array): void {
    bytesIn += chunk.length;
    const old = restLength;
    const taken = Math.min(chunk.length, LONGEST_REST);
    for (let i = 0; i < taken; i++) rest[old + i] = chunk[i];
    restLength = 0;
    const at = scan(rest, 0, old, old + taken);
    if (at < old) keep(rest, at, old + taken);
    else {
      const stop = scan(chunk, at - old, chunk.length, chunk.length);
      keep(chunk, stop, chunk.length);
    }
  }

  function end(): void {
    for (let i = 0; i < restLength; i++) {
      if (rest[i] === sync) falseSync++;
      stray(rest[i]);
    }
    restLength = 0;
  }

  function counters(): StreamCounters {
    return {
      bytesIn,
      framesGood,
      unknownKind,
      falseSync,
      acknowledgeBytes: strays[STRAY_ACKNOWLEDGE],
      flowControlBytes: strays[STRAY_FLOW_CONTROL],
      textBytes: strays[STRAY_TEXT],
      garbageBytes: strays[STRAY_GARBAGE],
    };
  }

  return { push, end, pendingBytes: () => restLength, counters };
}
