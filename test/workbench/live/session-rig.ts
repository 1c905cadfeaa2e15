import { virtualClock } from '../../../workbench/live/clock.ts';
import { createSession } from '../../../workbench/live/session.ts';
import type { LiveFrame, SessionEvent, SessionOptions } from '../../../workbench/live/session-types.ts';
import type { LineStates, Link, LinkEnd } from '../../../workbench/serial/link.ts';

/** A port without an event loop: bytes arrive when they are sent. Tests on a virtual clock stay exact with it. */
export function createTestPort(name: string, receive: (bytes: Uint8Array) => void = () => {}) {
  let hear: ((bytes: Uint8Array) => void) | undefined;
  const hearEnd: ((end: LinkEnd) => void)[] = [];
  let ended: LinkEnd | undefined;
  let isOpen = false;
  function end(reason: LinkEnd['reason'], detail = ''): void {
    if (ended) return;
    ended = { reason, detail };
    isOpen = false;
    for (const listener of hearEnd.splice(0)) listener(ended);
  }
  const port = {
    opened: [] as { baud: number; lines: LineStates }[],
    /** Thrown at the next opening. */
    refuses: undefined as unknown,
    send(bytes: Uint8Array): void {
      if (isOpen) hear?.(bytes);
    },
    end,
    isOpen: () => isOpen,
    link: {
      name,
      async open(baud, lines) {
        if (port.refuses !== undefined) throw port.refuses;
        port.opened.push({ baud, lines });
        isOpen = true;
      },
      async write(bytes) {
        if (isOpen) receive(bytes);
      },
      setLines: async () => true,
      setBaud: async () => {},
      onData(listener) {
        hear = listener;
      },
      onEnd(listener) {
        if (ended) listener(ended);
        else hearEnd.push(listener);
      },
      async close() {
        isOpen = false;
        end('closed');
      },
    } satisfies Link,
  };
  return port;
}

export type TestPort = ReturnType<typeof createTestPort>;

export interface Rig {
  frames: LiveFrame[];
  events: SessionEvent[];
  /** Events of a kind. */
  told(kind: SessionEvent['kind']): SessionEvent[];
  /** Lets time pass in steps, with turns for promises between; `each` is called at every step. */
  run(toS: number, each?: (nowS: number) => void, stepS?: number): Promise<void>;
}

export async function settle(): Promise<void> {
  for (let i = 0; i < 20; i++) await Promise.resolve();
}

/** A session on a virtual clock. @param find gives what the session finds now */
export function sessionRig(find: () => Link | undefined, more: Partial<SessionOptions> = {}) {
  const clock = virtualClock();
  const frames: LiveFrame[] = [];
  const events: SessionEvent[] = [];
  const session = createSession({
    find: async () => find(),
    baud: 115_200,
    framePeriodS: 0.01,
    clock,
    firstTag: 500,
    onFrame: (frame) => frames.push(frame),
    onEvent: (event) => events.push(event),
    ...more,
  });
  return {
    clock,
    session,
    frames,
    events,
    told: (kind: SessionEvent['kind']) => events.filter((event) => event.kind === kind),
    async run(toS: number, each: (nowS: number) => void = () => {}, stepS = 0.01): Promise<void> {
      const fromS = clock.nowS();
      const steps = Math.round((toS - fromS) / stepS);
      for (let i = 1; i <= steps; i++) {
        clock.advance(fromS + i * stepS);
        each(clock.nowS());
        await settle();
      }
    },
  };
}

export const ascii = (text: string) => Uint8Array.from(Buffer.from(text, 'latin1'));
