import { TautlineError } from '../../sim/errors.ts';
import type { Link, LinkEnd } from '../serial/link.ts';
import type { PageMessage, ServerMessage } from '../server/messages.ts';

type Answer = Extract<ServerMessage, { ok: true }>;
type Order = PageMessage extends infer M ? (M extends { id: number } ? Omit<M, 'id'> : never) : never;

/** The page's line to `tautline workbench`: one port, and named saves. */
export interface ServerConnection {
  ask(order: Order): Promise<Answer>;
  /** The port at a path as a link. One at a time. */
  link(path: string): Link;
}

/** @throws TautlineError `server/gone` when the server does not answer */
export async function connectServer(token: string): Promise<ServerConnection> {
  const socket = new WebSocket(`ws://${location.host}/live?token=${encodeURIComponent(token)}`);
  socket.binaryType = 'arraybuffer';
  const waiting = new Map<number, { resolve: (answer: Answer) => void; reject: (error: Error) => void }>();
  let nextId = 1;
  let hearBytes: ((bytes: Uint8Array) => void) | undefined;
  let hearEnd: ((end: LinkEnd) => void) | undefined;
  const gone = () =>
    new TautlineError('server/gone', 'The workbench’s server does not answer any more.', {
      detail: 'Start "tautline workbench" again and open the address that it prints.',
    });

  await new Promise<void>((resolve, reject) => {
    socket.onopen = () => resolve();
    socket.onerror = () => reject(gone());
  });
  socket.onmessage = ({ data }: MessageEvent<ArrayBuffer | string>) => {
    if (typeof data !== 'string') {
      hearBytes?.(new Uint8Array(data));
      return;
    }
    const message = JSON.parse(data) as ServerMessage;
    if ('is' in message) {
      hearEnd?.({ reason: message.reason, detail: message.detail });
      return;
    }
    const asked = waiting.get(message.answers);
    waiting.delete(message.answers);
    if (message.ok) asked?.resolve(message);
    else
      asked?.reject(
        new TautlineError(message.trouble.code, message.trouble.message, { detail: message.trouble.detail }),
      );
  };
  socket.onclose = () => {
    for (const { reject } of waiting.values()) reject(gone());
    waiting.clear();
    hearEnd?.({ reason: 'failed', detail: 'the server is gone' });
  };

  const ask = (order: Order): Promise<Answer> => {
    if (socket.readyState !== WebSocket.OPEN) return Promise.reject(gone());
    const id = nextId++;
    socket.send(JSON.stringify({ ...order, id }));
    return new Promise((resolve, reject) => void waiting.set(id, { resolve, reject }));
  };

  return {
    ask,
    link(path) {
      const ends: ((end: LinkEnd) => void)[] = [];
      let ended: LinkEnd | undefined;
      const end = (how: LinkEnd) => {
        ended = how;
        for (const listener of ends.splice(0)) listener(how);
      };
      return {
        name: path,
        async open(baud, { dtr, rts }) {
          hearEnd = end;
          await ask({ do: 'open', port: path, baud, dtr, rts });
        },
        async write(bytes) {
          socket.send(Uint8Array.from(bytes));
        },
        setLines: async (lines) => (await ask({ do: 'lines', lines })).done ?? false,
        async setBaud(baud) {
          await ask({ do: 'baud', baud });
        },
        onData(listener) {
          hearBytes = listener;
        },
        onEnd(listener) {
          if (ended) listener(ended);
          else ends.push(listener);
        },
        async close() {
          await ask({ do: 'close' }).catch(() => {});
          if (!ended) end({ reason: 'closed', detail: '' });
        },
      };
    },
  };
}
