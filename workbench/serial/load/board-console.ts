import type { Frame } from '../../../protocol/frame.ts';
import { createReassembler, type StreamCounters } from '../../../protocol/reassemble.ts';
import type { TautlineError } from '../../../sim/errors.ts';
import type { Link } from '../link.ts';
import { createGate, type Pace } from './gate.ts';
import { createLengthBytes } from './length-bytes.ts';

/** Text kept for looking at what the board said, characters. */
const TEXT_KEPT = 8192;
/** A silence after which the beginning of a frame is taken for stray bytes, ms. */
const FRAME_REST_MS = 60;

/** The board's console as heard between the frames of a running program. */
export interface BoardConsole {
  /** Waits for the board's flow control and for the pace. @throws TautlineError */
  write(bytes: Uint8Array): Promise<void>;
  /** From now on flow control counts; see Gate. */
  obeyFlowControl(): void;
  /** What to say if the board sent XOFF and then nothing; see Gate. */
  flowStuck(): TautlineError | undefined;
  /** Printable text heard since the port was opened, without frames; the last 8192 characters. */
  text(): string;
  /** Forgets the text so far. */
  clearText(): void;
  counters(): StreamCounters;
  /** Bytes between the frames, without flow control; one listener. */
  onConsole(listener: (bytes: Uint8Array) => void): void;
  /** @param listener its argument is overwritten by the next frame */
  onFrame(listener: (frame: Frame) => void): void;
}

/** @param xonLimitMs see createGate */
export function createBoardConsole(link: Link, pace: Pace, xonLimitMs: number): BoardConsole {
  const gate = createGate(link, pace, xonLimitMs);
  const isLength = createLengthBytes();
  let kept = '';
  let strays: number[] = [];
  let hearConsole: (bytes: Uint8Array) => void = () => {};
  let hearFrame: (frame: Frame) => void = () => {};
  let restTimer: NodeJS.Timeout | undefined;

  const stream = createReassembler(
    (frame) => hearFrame(frame),
    (byte) => {
      if (!isLength(byte) && gate.hear(byte)) return;
      strays.push(byte);
    },
  );

  function handOn(): void {
    if (strays.length === 0) return;
    const bytes = Uint8Array.from(strays);
    strays = [];
    for (const byte of bytes) {
      if ((byte >= 0x20 && byte < 0x7f) || byte === 0x0a) kept += String.fromCharCode(byte);
    }
    if (kept.length > TEXT_KEPT) kept = kept.slice(-TEXT_KEPT);
    hearConsole(bytes);
  }

  link.onData((bytes) => {
    clearTimeout(restTimer);
    stream.push(bytes);
    handOn();
    if (stream.pendingBytes() > 0) {
      restTimer = setTimeout(() => {
        stream.end();
        handOn();
      }, FRAME_REST_MS);
      restTimer.unref();
    }
  });

  return {
    write: gate.write,
    obeyFlowControl: gate.obey,
    flowStuck: gate.stuck,
    text: () => kept,
    clearText() {
      kept = '';
    },
    counters: stream.counters,
    onConsole(listener) {
      hearConsole = listener;
    },
    onFrame(listener) {
      hearFrame = listener;
    },
  };
}
