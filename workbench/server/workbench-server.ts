import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import { TautlineError } from '../../sim/errors.ts';
import { type Access, createAccess, LOOPBACK } from './access.ts';
import { MAX_MESSAGE_BYTES } from './messages.ts';
import { type Reach, relay } from './relay.ts';

/** Pages that may be connected at once: two boards, and a reload that overlaps. */
const MOST_PAGES = 6;

export interface PageFile {
  type: string;
  /** The content, or what reads it anew for each request. */
  content: Buffer | string | (() => Buffer | string);
  /** Given only to who knows the token; what comes with every copy of the program needs none. */
  isPrivate: boolean;
}

export interface WorkbenchServer {
  /** With the token: for the user's browser alone. */
  address: string;
  close(): Promise<void>;
}

/** Where the page finds the token is the address; it must not leak by referrers, frames or the cache. */
const HEADERS = {
  'Content-Security-Policy':
    "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'serial=(self)',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
  'Cache-Control': 'no-store',
};

/**
 * Serves the workbench's page to this machine only.
 * @param files by path, such as `/app.js`
 * @param port 0 = any free one
 * @throws TautlineError `server/not-served`
 */
export async function serveWorkbench(
  files: ReadonlyMap<string, PageFile>,
  reach: Reach,
  port = 0,
  access: Access = createAccess(),
): Promise<WorkbenchServer> {
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: MAX_MESSAGE_BYTES,
    perMessageDeflate: false,
  });
  const server = createServer((request, response) => answer(request, response, files, access, portOf()));
  const portOf = () => (server.address() as AddressInfo).port;

  server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    const refused =
      access.refusesConnection(request, portOf()) ??
      (sockets.clients.size >= MOST_PAGES ? 'too many pages are open' : undefined);
    if (refused !== undefined) {
      socket.end(
        `HTTP/1.1 403 Forbidden\r\nConnection: close\r\nContent-Type: text/plain\r\n\r\n${refused}\n`,
      );
      return;
    }
    sockets.handleUpgrade(request, socket, head, (made) => relay(made, reach));
  });
  server.headersTimeout = 10_000;
  server.requestTimeout = 10_000;
  server.maxHeadersCount = 60;

  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause) => reject(notServed(port, cause)));
    server.listen(port, LOOPBACK, resolve);
  });
  return {
    address: `http://${LOOPBACK}:${portOf()}/?token=${access.token}`,
    async close() {
      for (const socket of sockets.clients) socket.terminate();
      sockets.close();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

function notServed(port: number, cause: Error): TautlineError {
  const isTaken = 'code' in cause && cause.code === 'EADDRINUSE';
  return new TautlineError(
    'server/not-served',
    isTaken
      ? `Port number ${port} is taken by another program.`
      : `Port number ${port} cannot be served on: ${cause.message}`,
    { detail: 'Leave --listen out, so that a free one is taken, or name another.', cause },
  );
}

function answer(
  request: IncomingMessage,
  response: ServerResponse,
  files: ReadonlyMap<string, PageFile>,
  access: Access,
  port: number,
): void {
  const { pathname } = new URL(request.url ?? '/', 'http://x');
  const file = files.get(pathname);
  const refusal = refusalOf(request, file, access, port);
  if (file === undefined || refusal !== undefined) {
    const { status, words } = refusal ?? { status: 404, words: 'There is no such file.' };
    response.writeHead(status, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' });
    response.end(`${words}\n`);
    return;
  }
  const content = typeof file.content === 'function' ? file.content() : file.content;
  response.writeHead(200, { ...HEADERS, 'Content-Type': file.type });
  response.end(request.method === 'HEAD' ? undefined : content);
}

function refusalOf(
  request: IncomingMessage,
  file: PageFile | undefined,
  access: Access,
  port: number,
): { status: number; words: string } | undefined {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    return { status: 405, words: 'Only GET is answered.' };
  }
  const isOpen = file !== undefined && !file.isPrivate;
  const refused = isOpen ? access.refusesHost(request, port) : access.refusesPage(request, port);
  if (refused === undefined) return undefined;
  return { status: 403, words: `Refused: ${refused}. Open the address that "tautline workbench" printed.` };
}
