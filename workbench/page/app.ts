import { TautlineError } from '../../sim/errors.ts';
import { parseRig } from '../rig/parse-rig.ts';
import type { PageConfig } from './config.ts';
import { fill, h, setText } from './dom.ts';
import { createEngine, type Engine } from './engine.ts';
import { connectServer, type ServerConnection } from './server-connection.ts';
import { portSource, recordingSource, webSerialSource } from './sources.ts';
import { calibrateView } from './views/calibrate-view.ts';
import { chooseView } from './views/choose-view.ts';
import { diagnoseView } from './views/diagnose-view.ts';
import { firstLightView } from './views/first-light-view.ts';
import { liveView } from './views/live-view.ts';
import { sizeView } from './views/size-view.ts';
import type { View, ViewContext } from './views/view.ts';
import { hasWebSerial } from './web-serial-link.ts';
import { STATE_WORDS } from './words.ts';

const token = new URLSearchParams(location.search).get('token') ?? '';

async function begin(): Promise<void> {
  const root = document.getElementById('app')!;
  const config = (await (await fetch(`/config?token=${encodeURIComponent(token)}`)).json()) as PageConfig;
  const { rig, source, warnings } = parseRig(config.rigText, config.rigFile);
  const engine = createEngine(rig);
  const server = await connectServer(token).catch(() => undefined);
  const status = h(
    'p',
    { class: 'status', role: 'status', id: 'status' },
    warnings[0] ? `${warnings[0].seen}. ${warnings[0].next}.` : '',
  );
  const context: ViewContext = {
    engine,
    server,
    say: (text) => setText(status, text),
  };
  const views: View[] = [
    liveView(context),
    firstLightView(context),
    calibrateView(context),
    diagnoseView(context),
    chooseView(context),
    sizeView(context, source),
  ];
  fill(
    root,
    header(context, config, server),
    tabs(views),
    status,
    h('main', { id: 'views' }, ...views.map(({ element }) => element)),
  );
  show(views, location.hash.slice(1));
  window.addEventListener('hashchange', () => show(views, location.hash.slice(1)));
  window.addEventListener('resize', () => shownView(views)?.shown?.());
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => shownView(views)?.shown?.());
  const paint = () => {
    shownView(views)?.paint?.();
    requestAnimationFrame(paint);
  };
  requestAnimationFrame(paint);
  await connect(config, engine, server, context);
}

async function connect(
  config: PageConfig,
  engine: Engine,
  server: ServerConnection | undefined,
  { say }: ViewContext,
): Promise<void> {
  const { source } = config;
  if (source.kind === 'port' && server) await engine.connect(portSource(server, source.path));
  else if (source.kind === 'recording') {
    const answer = await fetch(`/recording?token=${encodeURIComponent(token)}`);
    await engine.connect(await recordingSource(source.file, new Uint8Array(await answer.arrayBuffer()), say));
  } else
    await engine.connect(source.kind === 'simulator' ? source : { kind: 'simulator', seed: 1, speed: 1 });
}

/** Name of the rig, where frames come from, and how the link does. */
function header(context: ViewContext, config: PageConfig, server: ServerConnection | undefined): HTMLElement {
  const { engine, say } = context;
  const state = h('span', { class: 'state', id: 'state', role: 'status' }, STATE_WORDS.closed);
  const from = h('span', { class: 'soft' }, '');
  const guarded = (what: () => Promise<void>) => () => {
    what().catch((error: unknown) =>
      say(error instanceof TautlineError ? `${error.message} ${error.detail}` : String(error)),
    );
  };
  const simulate = guarded(() => engine.connect({ kind: 'simulator', seed: 1, speed: 1 }));
  const serial = guarded(async () => engine.connect(await webSerialSource()));
  const ports = guarded(async () => {
    const { ports: found = [] } = await server!.ask({ do: 'ports' });
    const first = found.find(({ usbVendorId }) => usbVendorId !== undefined) ?? found[0];
    if (!first)
      throw new TautlineError('port/none', 'No port was found.', {
        detail: 'Plug the board in; some cables carry power only.',
      });
    await engine.connect(portSource(server!, first.path));
  });
  const update = () => {
    const health = engine.health();
    setText(state, health ? STATE_WORDS[health.state] : STATE_WORDS.closed);
    state.dataset.state = health?.state ?? 'closed';
    const source = engine.source();
    setText(
      from,
      source ? (source.kind === 'simulator' ? 'simulator: nothing is measured' : source.name) : '',
    );
  };
  engine.onEvent(update);
  setInterval(update, 500);
  return h(
    'header',
    { class: 'top' },
    h(
      'div',
      {},
      h('p', { class: 'over' }, 'tautline workbench'),
      h('h1', {}, engine.rig.name),
      h('p', { class: 'soft' }, `${engine.rig.hand.side} hand · ${engine.rig.board} · ${config.rigFile}`),
    ),
    h(
      'div',
      { class: 'link' },
      h('div', {}, state, ' ', from),
      h(
        'div',
        { class: 'row' },
        h('button', { type: 'button', onclick: simulate, id: 'use-simulator' }, 'Simulator'),
        server && h('button', { type: 'button', onclick: ports, id: 'use-port' }, 'Port'),
        hasWebSerial() &&
          h('button', { type: 'button', onclick: serial, id: 'use-web-serial' }, 'Port of the browser'),
      ),
    ),
  );
}

function tabs(views: View[]): HTMLElement {
  return h(
    'nav',
    { class: 'tabs', 'aria-label': 'Views' },
    ...views.map(({ id, title }) => h('a', { href: `#${id}`, id: `tab-${id}` }, title)),
  );
}

function show(views: View[], wanted: string): void {
  const next = views.find(({ id }) => id === wanted) ?? views[0]!;
  for (const view of views) {
    const isShown = view === next;
    if (view.element.hidden === !isShown) continue;
    view.element.hidden = !isShown;
  }
  for (const { id } of views) {
    const tab = document.getElementById(`tab-${id}`)!;
    if (id === next.id) tab.setAttribute('aria-current', 'page');
    else tab.removeAttribute('aria-current');
  }
  next.shown?.();
}

function shownView(views: View[]): View | undefined {
  return views.find(({ element }) => !element.hidden);
}

begin().catch((error: unknown) => {
  const root = document.getElementById('app')!;
  const words = error instanceof TautlineError ? `${error.message} ${error.detail}` : String(error);
  fill(root, h('main', {}, h('h1', {}, 'The workbench could not start'), h('p', {}, words)));
});
