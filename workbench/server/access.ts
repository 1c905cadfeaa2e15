import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** The only address that the workbench is served on. */
export const LOOPBACK = '127.0.0.1';

/** Who may talk to the workbench's server: whoever was given the address, from the page that came from it. */
export interface Access {
  /** Part of the address that only the user's browser is given. */
  token: string;
  /** Why a request for a file that holds nothing private is refused; undefined if it is not. */
  refusesHost(request: IncomingMessage, port: number): string | undefined;
  /** Why a request for the page is refused; undefined if it is not. */
  refusesPage(request: IncomingMessage, port: number): string | undefined;
  /** The same for a connection that can do things: it must come from our own page as well. */
  refusesConnection(request: IncomingMessage, port: number): string | undefined;
}

export function createAccess(token = randomBytes(24).toString('base64url')): Access {
  const wanted = Buffer.from(token);

  function hasToken(request: IncomingMessage): boolean {
    const given = Buffer.from(new URL(request.url ?? '/', 'http://x').searchParams.get('token') ?? '');
    return given.length === wanted.length && timingSafeEqual(given, wanted);
  }

  // A name that somebody made to point at this machine (DNS rebinding) shows in the Host header.
  function wrongHost(request: IncomingMessage, port: number): string | undefined {
    const hosts = [`${LOOPBACK}:${port}`, `localhost:${port}`];
    return hosts.includes(request.headers.host ?? '') ? undefined : 'the Host header names another machine';
  }

  return {
    token,
    refusesHost: wrongHost,
    refusesPage: (request, port) =>
      wrongHost(request, port) ??
      (hasToken(request) ? undefined : 'the token of the address is missing or wrong'),
    refusesConnection(request, port) {
      const origins = [`http://${LOOPBACK}:${port}`, `http://localhost:${port}`];
      if (!origins.includes(request.headers.origin ?? '')) return 'it comes from another page';
      return this.refusesPage(request, port);
    },
  };
}
