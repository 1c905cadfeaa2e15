import type { LineStates, Link, LinkEnd } from './link.ts';
import { endError } from './port-errors.ts';

/** What stands at the far end of a link in memory. */
export interface FarEnd {
  /** The port was opened, or its rate or lines were changed. */
  lines?(lines: LineStates, baud: number): void;
  /** Bytes of the host. */
  receive(bytes: Uint8Array): void;
  /** The port was closed by the host, or pulled. */
  closed?(): void;
}

/** The far end's own side of the link. */
export interface Plug {
  /** Sends bytes to the host; nothing happens while the port is not open. */
  send(bytes: Uint8Array): void;
  /** Pulls the cable. */
  pull(): void;
  isOpen(): boolean;
}

/**
 * A link in memory. Bytes arrive in later turns of the event loop, as those of a driver do.
 * @param make is given the far end's side, once
 */
export function createMemoryLink(name: string, make: (plug: Plug) => FarEnd): Link {
  let open = false;
  let baudNow = 0;
  let linesNow: LineStates = { dtr: false, rts: false };
  let ended: LinkEnd | undefined;
  let hearData: ((bytes: Uint8Array) => void) | undefined;
  const hearEnd: ((end: LinkEnd) => void)[] = [];

  function end(reason: LinkEnd['reason']): void {
    if (ended) return;
    ended = { reason, detail: '' };
    const wasOpen = open;
    open = false;
    for (const listener of hearEnd.splice(0)) listener(ended);
    if (wasOpen) far.closed?.();
  }

  const far = make({
    send(bytes) {
      const copy = Uint8Array.from(bytes);
      setImmediate(() => {
        if (open) hearData?.(copy);
      });
    },
    pull: () => end('gone'),
    isOpen: () => open,
  });

  function check(): void {
    if (!open) throw endError(name, ended ?? { reason: 'failed', detail: 'not open' }, 'it was in use', '');
  }

  return {
    name,
    async open(baud, lines) {
      open = true;
      baudNow = baud;
      linesNow = { ...lines };
      far.lines?.(linesNow, baudNow);
    },
    async write(bytes) {
      check();
      const copy = Uint8Array.from(bytes);
      await new Promise((resolve) => setImmediate(resolve));
      if (open) far.receive(copy);
    },
    async setLines(lines) {
      check();
      linesNow = { ...linesNow, ...lines };
      far.lines?.(linesNow, baudNow);
      return true;
    },
    async setBaud(baud) {
      check();
      baudNow = baud;
      far.lines?.(linesNow, baudNow);
    },
    onData(listener) {
      hearData = listener;
    },
    onEnd(listener) {
      if (ended) listener(ended);
      else hearEnd.push(listener);
    },
    async close() {
      end('closed');
      hearData = undefined;
    },
  };
}
