/**
 * One way to talk to a port. The serial driver is one implementation, memory another, so that the same code and the
 * same tests run over both.
 */

/**
 * The two output lines of a USB serial bridge, `true` = asserted. Boards with the usual pair of transistors read
 * them so (espressif/esptool#1157): equal = run, only `rts` = held in reset, only `dtr` = boot pin held down.
 */
export interface LineStates {
  dtr: boolean;
  rts: boolean;
}

/**
 * Lines for talking to a running program. Both asserted is also what Linux makes of an opened port, so that opening
 * changes nothing, and boards with their own USB controller send only while `dtr` is asserted.
 */
export const RUN_LINES: LineStates = { dtr: true, rts: true };

/** Why a port is no longer open. */
export interface LinkEnd {
  /** closed = by ourselves; gone = unplugged; failed = the driver gave it up */
  reason: 'closed' | 'gone' | 'failed';
  /** The driver's own words, or ''. */
  detail: string;
}

export interface Link {
  /** Path or name that the user knows it by. */
  readonly name: string;
  /**
   * @param baud bits per second
   * @throws TautlineError `port/...`
   */
  open(baud: number, lines: LineStates): Promise<void>;
  /**
   * Hands bytes to the driver, in order.
   * @throws TautlineError `port/gone` or `port/failed` when the port has ended
   */
  write(bytes: Uint8Array): Promise<void>;
  /**
   * Sets the lines that are given, at one time.
   * @returns false if the port has no such lines (a pseudo-terminal): nothing was changed
   */
  setLines(lines: Partial<LineStates>): Promise<boolean>;
  /** @param baud bits per second */
  setBaud(baud: number): Promise<void>;
  /** One listener; a new one replaces the old. Bytes without a listener are dropped. */
  onData(listener: ((bytes: Uint8Array) => void) | undefined): void;
  /** Is called once, also when the port ended before. */
  onEnd(listener: (end: LinkEnd) => void): void;
  /** Releases the port in any state; never throws. */
  close(): Promise<void>;
}
