import type { WebSocket } from 'ws';
import { TautlineError } from '../../sim/errors.ts';
import type { Link } from '../serial/link.ts';
import type { PortList } from '../serial/list-ports.ts';
import { type PageMessage, pageMessage, type ServerMessage, type Trouble } from './messages.ts';
import type { Saves } from './saves.ts';

/** What a page may reach through its connection. */
export interface Reach {
  listPorts: () => Promise<PortList>;
  createLink: (path: string) => Link;
  saves: Saves;
  /** Puts settings into the rig file that the workbench was started with. @throws TautlineError */
  writeSettings: (settings: unknown) => void;
}

/** Bytes that may wait for a slow page before the port's are dropped. */
const MOST_WAITING = 1024 * 1024;

/** Serves one page: at most one port at a time, which is closed when the page goes. */
export function relay(socket: WebSocket, reach: Reach): void {
  let link: Link | undefined;
  let queue = Promise.resolve();

  const tell = (message: ServerMessage) => {
    if (socket.readyState === socket.OPEN) socket.send(JSON.stringify(message));
  };

  function connect(path: string): Link {
    const made = reach.createLink(path);
    made.onData((bytes) => {
      // A page that does not read must not fill the memory; the frames' numbers show what is missing.
      if (socket.readyState === socket.OPEN && socket.bufferedAmount < MOST_WAITING) socket.send(bytes);
    });
    made.onEnd((end) => {
      if (link === made) link = undefined;
      tell({ is: 'end', ...end });
    });
    return made;
  }

  async function act(
    message: PageMessage,
  ): Promise<Omit<Extract<ServerMessage, { ok: true }>, 'answers' | 'ok'>> {
    switch (message.do) {
      case 'ports':
        return reach.listPorts();
      case 'open': {
        await link?.close();
        const opened = connect(message.port);
        await opened.open(message.baud, { dtr: message.dtr, rts: message.rts });
        link = opened;
        return {};
      }
      case 'lines': {
        const { dtr, rts } = message.lines;
        const done = await need().setLines({
          ...(dtr !== undefined && { dtr }),
          ...(rts !== undefined && { rts }),
        });
        return { done };
      }
      case 'baud':
        await need().setBaud(message.baud);
        return {};
      case 'close':
        await link?.close();
        link = undefined;
        return {};
      case 'list':
        return { saves: reach.saves.list() };
      case 'load':
        return { text: reach.saves.load(message.kind, message.name) };
      case 'save':
        reach.saves.save(message.kind, message.name, message.text, message.append);
        return {};
      case 'write settings':
        reach.writeSettings(message.settings);
        return {};
    }
  }

  function need(): Link {
    if (!link) {
      throw new TautlineError('port/not-open', 'No port is open.', { detail: 'Open one first.' });
    }
    return link;
  }

  async function onText(text: string): Promise<void> {
    const parsed = pageMessage.safeParse(jsonOf(text));
    if (!parsed.success) {
      socket.close(1008, 'not a message of the page');
      return;
    }
    const answers = parsed.data.id;
    try {
      tell({ answers, ok: true, ...(await act(parsed.data)) });
    } catch (error) {
      tell({ answers, ok: false, trouble: troubleOf(error) });
    }
  }

  socket.on('message', (data: Buffer, isBinary: boolean) => {
    // In order: what is written waits until the port is open.
    queue = queue.then(async () => {
      if (!isBinary) return onText(data.toString('utf8'));
      await link?.write(data).catch(() => {});
    });
  });
  socket.on('close', () => void link?.close());
  socket.on('error', () => void link?.close());
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

export function troubleOf(error: unknown): Trouble {
  if (error instanceof TautlineError) {
    return { code: error.code, message: error.message, detail: error.detail ?? '' };
  }
  return { code: 'fault', message: 'The workbench could not do that.', detail: String(error) };
}
