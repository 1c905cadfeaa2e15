import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { TautlineError } from '../../../sim/errors.ts';
import { createMemoryLink, type Plug } from '../../../workbench/serial/memory-link.ts';
import type { ServerMessage } from '../../../workbench/server/messages.ts';
import { createSaves } from '../../../workbench/server/saves.ts';
import { serveWorkbench, type WorkbenchServer } from '../../../workbench/server/workbench-server.ts';

let folder: string;
let server: WorkbenchServer;
let received: number[];
let plug: Plug;
let written: unknown;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tautline-server-'));
  received = [];
  const files = new Map([
    ['/', { type: 'text/html', content: 'the page', isPrivate: true }],
    ['/app.js', { type: 'text/javascript', content: 'run()', isPrivate: false }],
  ]);
  server = await serveWorkbench(files, {
    listPorts: async () => ({ ports: [], trouble: '' }),
    createLink: (path) =>
      createMemoryLink(path, (made) => {
        plug = made;
        return { receive: (bytes) => void received.push(...bytes) };
      }),
    saves: createSaves(join(folder, 'kept')),
    writeSettings: (settings) => {
      if (settings === null)
        throw new TautlineError('settings/none', 'No settings came.', { detail: 'Pick some.' });
      written = settings;
    },
  });
});

const reachOfNothing = () => ({
  listPorts: async () => ({ ports: [], trouble: '' }),
  createLink: () => {
    throw new Error('none');
  },
  saves: createSaves(folder),
  writeSettings: () => {},
});

afterEach(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

const address = () => new URL(server.address);

/** Answer to a request made by hand, so that any header can be sent. */
function get(path: string, headers: Record<string, string> = {}, method = 'GET') {
  return new Promise<{ status: number; text: string; headers: Record<string, unknown> }>(
    (resolve, reject) => {
      const { hostname, port } = address();
      const made = request({ hostname, port, path, method, headers }, (response) => {
        let text = '';
        response.on('data', (part) => {
          text += part;
        });
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, text, headers: response.headers }),
        );
      });
      made.on('error', reject);
      made.end();
    },
  );
}

/** A page's connection; `origin` as its browser would send it. */
async function connect(origin = address().origin, search = address().search, host?: string) {
  const socket = new WebSocket(`ws://${address().host}/live${search}`, {
    origin,
    ...(host !== undefined && { headers: { host } }),
  });
  const heard: ServerMessage[] = [];
  const bytes: number[] = [];
  socket.on('message', (data: Buffer, isBinary) => {
    if (isBinary) bytes.push(...data);
    else heard.push(JSON.parse(data.toString()) as ServerMessage);
  });
  await new Promise<void>((resolve, reject) => {
    socket.on('open', resolve);
    socket.on('error', reject);
  });
  let id = 0;
  const ask = async (message: object) => {
    id += 1;
    socket.send(JSON.stringify({ ...message, id }));
    const mine = id;
    for (let i = 0; i < 500; i++) {
      const answer = heard.find((one) => 'answers' in one && one.answers === mine);
      if (answer) return answer as Extract<ServerMessage, { answers: number }>;
      await new Promise((resolve) => setTimeout(resolve, 2));
    }
    throw new Error('no answer');
  };
  return { socket, heard, bytes, ask };
}

const refusal = async (...args: Parameters<typeof connect>) =>
  connect(...args).then(
    () => 'connected',
    (error: Error) => error.message,
  );

const OPEN = { do: 'open', port: '/dev/ttyX', baud: 115200, dtr: true, rts: true };

describe('the workbench’s server', () => {
  it('listens on the loopback address, with a token of 192 bits', () => {
    expect(address().hostname).toBe('127.0.0.1');
    expect(Buffer.from(address().searchParams.get('token')!, 'base64url')).toHaveLength(24);
  });

  it('tells a port number that is taken', async () => {
    const taken = serveWorkbench(new Map(), reachOfNothing(), Number(address().port));
    await expect(taken).rejects.toMatchObject({ code: 'server/not-served' });
    await expect(taken).rejects.toThrow(/is taken by another program/);
  });

  it('gives the page to who has the token, with headers that keep it to itself', async () => {
    const { status, text, headers } = await get(`/${address().search}`);
    expect([status, text]).toEqual([200, 'the page']);
    expect(headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cache-control': 'no-store',
    });
    expect(headers['content-security-policy']).toMatch(/default-src 'none'.*frame-ancestors 'none'/);
  });

  it.each([
    ['without the token', '/', {}, 403],
    ['with another token', '/?token=abc', {}, 403],
    ['by another name (DNS rebinding)', undefined, { host: 'evil.example:80' }, 403],
    ['another file, without the token', '/../package.json', {}, 403],
  ])('refuses %s', async (_, path, headers, status) => {
    const answer = await get(path ?? `/${address().search}`, headers as Record<string, string>);
    expect(answer.status).toBe(status);
    expect(answer.text).toMatch(/^Refused: .*tautline workbench/);
  });

  it('serves nothing but its own files, and answers only GET and HEAD', async () => {
    expect((await get(`/etc/passwd${address().search}`)).status).toBe(404);
    expect((await get(`/%2e%2e/package.json${address().search}`)).status).toBe(404);
    expect((await get(`/${address().search}`, {}, 'POST')).status).toBe(405);
    expect((await get('/app.js')).text).toBe('run()');
  });

  it('refuses connections of another page, without the token, or by another name', async () => {
    expect(await refusal('http://evil.example')).toMatch(/403/);
    expect(await refusal('null')).toMatch(/403/);
    expect(await refusal(undefined, '?token=abc')).toMatch(/403/);
    expect(await refusal(undefined, undefined, 'evil.example')).toMatch(/403/);
    expect(await refusal()).toBe('connected');
  });

  it('refuses a seventh page', async () => {
    for (let i = 0; i < 6; i++) await connect();
    expect(await refusal()).toMatch(/403/);
  });

  it('relays a port in both directions and tells when it is pulled', async () => {
    const page = await connect();
    expect(await page.ask(OPEN)).toMatchObject({ ok: true });
    page.socket.send(Uint8Array.of(1, 2, 255));
    plug.send(Uint8Array.of(0xf5, 7));
    await expect
      .poll(() => [received, page.bytes])
      .toEqual([
        [1, 2, 255],
        [0xf5, 7],
      ]);
    plug.pull();
    await expect.poll(() => page.heard.at(-1)).toMatchObject({ is: 'end', reason: 'gone' });
    expect(await page.ask({ do: 'baud', baud: 9600 })).toMatchObject({
      ok: false,
      trouble: { code: 'port/not-open' },
    });
  });

  it('frees the port when the page goes', async () => {
    const page = await connect();
    await page.ask(OPEN);
    page.socket.terminate();
    await expect.poll(() => plug.isOpen()).toBe(false);
  });

  it('keeps recordings under checked names, appends, lists and gives them back', async () => {
    const page = await connect();
    const save = (name: string, text: string, append: boolean) =>
      page.ask({ do: 'save', kind: 'recording', name, text, append });
    await save('evening-1', 'a\n', false);
    await save('evening-1', 'b\n', true);
    expect(readFileSync(join(folder, 'kept/evening-1.csv'), 'utf8')).toBe('a\nb\n');
    expect(await page.ask({ do: 'list' })).toMatchObject({
      saves: [{ kind: 'recording', name: 'evening-1', bytes: 4 }],
    });
    expect(await page.ask({ do: 'load', kind: 'recording', name: 'evening-1' })).toMatchObject({
      text: 'a\nb\n',
    });
    expect(await page.ask({ do: 'load', kind: 'profile', name: 'nobody' })).toMatchObject({
      ok: false,
      trouble: { code: 'save/not-found' },
    });
  });

  it.each(['../evil', 'a/b', 'A', '', '.x', 'x'.repeat(61), 'a.csv', 'con\0'])(
    'closes the connection at the name %j, and nothing is written',
    async (name) => {
      const page = await connect();
      const closed = new Promise<number>((resolve) => page.socket.on('close', resolve));
      page.socket.send(
        JSON.stringify({ do: 'save', id: 1, kind: 'recording', name, text: 'x', append: false }),
      );
      expect(await closed).toBe(1008);
      expect(readdirSync(folder)).toEqual([]);
    },
  );

  it.each([
    'not json',
    '{}',
    '{"do":"open","id":1}',
    '{"do":"run","id":1,"code":"process.exit()"}',
    '{"do":"ports","id":1,"__proto__":{"x":1},"more":2}',
    '[]',
  ])('closes a connection that says %s, and goes on for others', async (text) => {
    const other = await connect();
    const page = await connect();
    const closed = new Promise<number>((resolve) => page.socket.on('close', resolve));
    page.socket.send(text);
    expect(await closed).toBe(1008);
    expect(await other.ask({ do: 'ports' })).toMatchObject({ ok: true, ports: [] });
  });

  it('closes a connection that sends more than 256 kB at once', async () => {
    const page = await connect();
    const closed = new Promise<number>((resolve) => page.socket.on('close', resolve));
    page.socket.send(new Uint8Array(300 * 1024));
    // 1009 = message too big (RFC 6455, 7.4.1)
    expect(await closed).toBe(1009);
  });

  it('hands settings to the rig file, and tells in words why not', async () => {
    const page = await connect();
    expect(await page.ask({ do: 'write settings', settings: { oversampling: 4 } })).toMatchObject({
      ok: true,
    });
    expect(written).toEqual({ oversampling: 4 });
    expect(await page.ask({ do: 'write settings', settings: null })).toMatchObject({
      ok: false,
      trouble: { code: 'settings/none', message: 'No settings came.', detail: 'Pick some.' },
    });
  });
});
