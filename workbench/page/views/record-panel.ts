import { settingsIdOf } from '../../bundle/ids.ts';
import { realClock } from '../../live/clock.ts';
import { createRecorder, type Recorder } from '../../live/recorder.ts';
import { fill, h, setText } from '../dom.ts';
import { VERSION } from '../version.ts';
import type { ViewContext } from './view.ts';

/** Recording to a named save of the server, or to a file that the browser offers when it ends. */
export function recordPanel({ engine, server, say }: ViewContext): HTMLElement {
  let recorder: Recorder | undefined;
  let stopHearing: (() => void)[] = [];
  let kept: string[] = [];
  let timer: number | undefined;
  const name = h('input', {
    id: 'record-name',
    value: 'session-1',
    pattern: '[a-z0-9][a-z0-9\\-]{0,59}',
    'aria-label': 'Name of the recording',
  });
  const button = h('button', { type: 'button', id: 'record', onclick: () => void toggle() }, 'Record');
  const count = h('span', { class: 'soft', role: 'status' }, '');

  function append(lines: string): void {
    if (!server) {
      kept.push(lines);
      return;
    }
    const isFirst = kept.length === 0;
    kept = ['begun'];
    server
      .ask({ do: 'save', kind: 'recording', name: name.value, append: !isFirst, text: lines })
      .catch((error: Error) => say(error.message));
  }

  async function toggle(): Promise<void> {
    if (recorder) return end();
    if (!name.checkValidity()) {
      say('A recording’s name is up to 60 small letters, digits and dashes, such as evening-1.');
      return;
    }
    kept = [];
    recorder = createRecorder(
      {
        rigName: engine.rig.name,
        rigFile: '',
        settingsId: settingsIdOf(engine.rig),
        programId: undefined,
        framePeriodS: 1 / engine.rig.frameRateHz,
        started: new Date().toISOString(),
        version: VERSION,
        isSimulated: engine.source()?.kind === 'simulator',
      },
      { append, close: async () => {} },
      realClock(),
      (error) => say(error.message),
    );
    const now = recorder;
    stopHearing = [engine.onFrame((frame) => now.frame(frame)), engine.onEvent((event) => now.event(event))];
    name.disabled = true;
    fill(button, 'Stop');
    button.classList.add('is-on');
    timer = window.setInterval(() => setText(count, `${now.counts().frames} frames`), 250);
  }

  async function end(): Promise<void> {
    const done = recorder!;
    recorder = undefined;
    for (const stop of stopHearing) stop();
    window.clearInterval(timer);
    await done.close();
    name.disabled = false;
    fill(button, 'Record');
    button.classList.remove('is-on');
    setText(count, `${done.counts().frames} frames kept`);
    if (server) say(`Recorded as ${name.value}.`);
    else offer(kept.join(''), `${name.value}.csv`);
  }

  return h(
    'section',
    { class: 'panel' },
    h('h3', {}, 'Record'),
    h('div', { class: 'row' }, name, button, count),
  );
}

/** Gives the user a file. */
function offer(text: string, name: string): void {
  const link = h('a', { href: URL.createObjectURL(new Blob([text], { type: 'text/csv' })), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
