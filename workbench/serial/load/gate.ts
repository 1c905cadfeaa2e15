import { TautlineError } from '../../../sim/errors.ts';
import type { Link } from '../link.ts';

/** How fast a board is fed. */
export interface Pace {
  /** Bytes handed over at one time. */
  chunkBytes: number;
  /** Pause after each chunk, ms. */
  pauseMs: number;
}

/**
 * Releases of the interpreter up to 2v29 lose what goes beyond 64 bytes of one burst on an ESP32
 * (espruino/Espruino#2718), and its serial task collects bytes for 5 ms: 40 bytes at most with this pace, 4 kB/s.
 */
export const USUAL_PACE: Pace = { chunkBytes: 20, pauseMs: 5 };
/** For boards and bridges that still lose bytes. A packet of 512 bytes takes 0.64 s, within the board's 1 s. */
export const SLOW_PACE: Pace = { chunkBytes: 20, pauseMs: 25 };

const XON = 0x11;
const XOFF = 0x13;

/** Writes to a board in small portions and obeys its XOFF and XON. */
export interface Gate {
  /** @throws TautlineError `load/flow-stuck`, `port/...` */
  write(bytes: Uint8Array): Promise<void>;
  /** @returns whether the byte was one of flow control, and so is used up */
  hear(byte: number): boolean;
  /**
   * Obeys flow control from now on. Before, a program may be sending frames, and one that was cut in two when the
   * port opened leaves bytes that look like XOFF, after which no XON comes.
   */
  obey(): void;
  /** The last that was heard was XOFF: what to say if nothing else comes. */
  stuck(): TautlineError | undefined;
}

/** @param xonLimitMs how long an XOFF may stop a write before it counts as stuck */
export function createGate(link: Link, pace: Pace, xonLimitMs: number): Gate {
  let stopped = false;
  let obeying = false;
  let resume: (() => void) | undefined;
  let tail: Promise<void> = Promise.resolve();

  async function waitForXon(): Promise<void> {
    let timer: NodeJS.Timeout | undefined;
    try {
      await new Promise<void>((resolve, reject) => {
        resume = resolve;
        timer = setTimeout(() => reject(stuckError(link.name, xonLimitMs)), xonLimitMs);
      });
    } finally {
      clearTimeout(timer);
      resume = undefined;
    }
  }

  async function writeAll(bytes: Uint8Array): Promise<void> {
    for (let at = 0; at < bytes.length; at += pace.chunkBytes) {
      while (stopped && obeying) await waitForXon();
      await link.write(bytes.subarray(at, at + pace.chunkBytes));
      await new Promise((resolve) => setTimeout(resolve, pace.pauseMs));
    }
  }

  return {
    write(bytes) {
      const mine = tail.then(() => writeAll(bytes));
      tail = mine.catch(() => {});
      return mine;
    },
    hear(byte) {
      if (byte === XOFF) stopped = true;
      else if (byte === XON) {
        stopped = false;
        resume?.();
      } else return false;
      return true;
    },
    obey() {
      stopped = false;
      obeying = true;
    },
    stuck: () => (stopped ? stuckError(link.name, undefined) : undefined),
  };
}

function stuckError(name: string, waitedMs: number | undefined): TautlineError {
  return new TautlineError(
    'load/flow-stuck',
    `The board on ${name} sent XOFF ("stop sending") and no XON${waitedMs === undefined ? '' : ` for ${waitedMs / 1000} s`}.`,
    {
      detail:
        'Its input buffer stays full: the running program takes all its time, or the interpreter hangs. Press RESET (EN) on the board and load again at once; if it comes back, hold the program off by erasing the board: tautline flash --erase.',
    },
  );
}
