import type { CommandOutcome } from '../../protocol/command-sender.ts';
import type { ReceiveCounters } from '../../protocol/receive.ts';
import type { Link } from '../serial/link.ts';

/** Time and timers, so that an hour can be lived through in seconds. */
export interface Clock {
  /** Never goes back, s. */
  nowS(): number;
  /** Calls until the returned function is called. */
  every(periodS: number, call: () => void): () => void;
}

/** One frame as a session gives it on. A copy: it may be kept. */
export interface LiveFrame {
  kind: 'hand' | 'raw' | 'health' | 'reply';
  side: 'left' | 'right';
  /** 0-255 */
  sequence: number;
  /** 1 = next, n > 1 = n - 1 lost before it, 0 = repeated, negative = late. */
  step: number;
  /** Board's clock, unwrapped, s. */
  deviceS: number;
  /** The same moment on the host's clock, s. */
  hostS: number;
  /** Five words, 0-65535; what they mean depends on the kind, see protocol/SPEC.md. */
  values: readonly number[];
  /** Readings of the joystick's axes, or channel and pace of a raw frame. */
  joystick: readonly [number, number];
  /** Bits 0-3. */
  buttons: number;
  /** Status bits of protocol/frame.ts. */
  status: number;
}

/**
 * Where a session is.
 * - `closed`: not begun, or ended by the user
 * - `looking`: no port yet, or the port is gone; it is looked for again and again
 * - `opening`: the port is being opened
 * - `listening`: open, but no frame yet (a board that starts says other things first)
 * - `streaming`: frames come
 * - `silent`: frames came, but none for a while: the pose is stale
 */
export type SessionState = 'closed' | 'looking' | 'opening' | 'listening' | 'streaming' | 'silent';

/** Something to tell the user: once, not for every byte of it. */
export interface SessionEvent {
  /** Host's clock, s. */
  hostS: number;
  kind:
    | 'state'
    | 'port-busy'
    | 'port-refused'
    | 'port-gone'
    | 'port-back'
    | 'board-started'
    | 'brown-out'
    | 'board-text'
    | 'wrong-baud'
    | 'wrong-program'
    | 'bursts'
    | 'no-reply';
  /** What was seen, in a sentence. */
  seen: string;
  /** What to do next; '' where there is nothing to do. */
  next: string;
}

/** How the link does. */
export interface LinkHealth extends ReceiveCounters {
  state: SessionState;
  portName: string;
  frames: number;
  /** Hand frames a second over the last few seconds; 0 while silent. */
  rateHz: number;
  /** Standard deviation of the time between hand frames by the board's clock, ms. */
  jitterMs: number;
  /** Largest wait between two arrivals of late, ms: 16 ms and more hint at the adapter's latency timer. */
  burstMs: number;
  /** The board's clock against the host's, parts in a million; undefined until it is known to 20. */
  driftPpm: number | undefined;
  /** Times that the board was seen to start anew, and those for lack of voltage. */
  starts: number;
  brownOuts: number;
  /** No frame for so long that the pose must not be trusted any more. */
  isStale: boolean;
}

export interface SessionOptions {
  /** Finds the port, or another name of it after it was lost; undefined while there is none. */
  find: () => Promise<Link | undefined>;
  /** Bits a second. */
  baud: number;
  /** Time between two frames, s. */
  framePeriodS: number;
  clock: Clock;
  onFrame: (frame: LiveFrame) => void;
  onEvent: (event: SessionEvent) => void;
  /** 0-65534; see createCommandSender. */
  firstTag: number;
  /** What the rig's program should answer to the version command; another one is told as `wrong-program`. */
  programId?: number;
  /** The build's id, 32 bits, asked for in the same way. */
  settingsId?: number;
}

export interface Session {
  state(): SessionState;
  start(): void;
  /** Closes the port and ends; settles when the port is free. */
  stop(): Promise<void>;
  /**
   * Sends a command and waits for what becomes of it. Commands queue.
   * @throws TautlineError `live/not-open` when there is no board to talk to
   */
  command(code: number, subject: number, index: number, value: number): Promise<CommandOutcome>;
  health(): LinkHealth;
}
