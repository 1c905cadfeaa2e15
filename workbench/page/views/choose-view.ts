import type { ChooseResult, RatedSettings } from '../../../sim/study/result.ts';
import { answerSections } from '../../report/answer-sections.ts';
import { evidenceSections } from '../../report/evidence-sections.ts';
import { settingsLine } from '../../report/words.ts';
import type { ChooseOrder, ChooseReply } from '../choose-messages.ts';
import { fill, fromReport, h, setText } from '../dom.ts';
import { VERSION } from '../version.ts';
import type { View, ViewContext } from './view.ts';

/** Runs `choose` beside the page, shows the answer, and tries settings on the live hand. */
export function chooseView({ engine, server, say }: ViewContext): View {
  const start = h(
    'button',
    { type: 'button', id: 'choose', class: 'main', onclick: () => run() },
    'Choose settings',
  );
  const draws = h(
    'select',
    { id: 'draws', 'aria-label': 'Builds to simulate' },
    h('option', { value: '200' }, '200 builds'),
    h('option', { value: '40' }, '40 builds: a first look'),
  );
  const progress = h('progress', { max: 1, value: 0, hidden: true, 'aria-label': 'Progress' });
  const told = h('p', { class: 'task', role: 'status' }, '');
  const tries = h('div', { class: 'tries' });
  const answer = h('div', { class: 'report' });
  const inUse = h('p', { class: 'soft', id: 'in-use' }, '');
  const showInUse = () => setText(inUse, `In use: ${settingsLine(engine.settings())}`);
  showInUse();
  let worker: Worker | undefined;

  function run(): void {
    worker?.terminate();
    worker = new Worker('/choose-worker.js', { type: 'module' });
    start.disabled = true;
    progress.hidden = false;
    const { settings: _, ...rig } = engine.rig;
    worker.onmessage = ({ data }: MessageEvent<ChooseReply>) => {
      if (data.is === 'progress') {
        progress.value = data.share;
        setText(told, data.stage);
        return;
      }
      end();
      if (data.is === 'trouble') say(data.words);
      else show(data.result);
    };
    worker.onerror = (event) => {
      end();
      say(`Choosing failed: ${event.message}`);
    };
    worker.postMessage({ rig, version: VERSION, seed: 1, draws: Number(draws.value) } satisfies ChooseOrder);
  }

  function end(): void {
    start.disabled = false;
    progress.hidden = true;
    setText(told, '');
    worker?.terminate();
    worker = undefined;
  }

  function row(rated: RatedSettings, name: string): HTMLElement {
    const { jitter, lag } = { jitter: rated.scores.jitterPct, lag: rated.scores.lagMs };
    return h(
      'li',
      {},
      h(
        'button',
        {
          type: 'button',
          class: 'try',
          onclick: () => {
            void engine.trySettings(rated.settings).then((isDone) => {
              say(
                isDone
                  ? 'Tried on the live hand: look at Live.'
                  : 'Only the simulator takes other settings at once; a board needs “tautline bundle” and “tautline load”.',
              );
              showInUse();
            });
          },
        },
        'Try',
      ),
      ` ${name}: ${settingsLine(rated.settings)} `,
      h('span', { class: 'soft' }, `jitter ${jitter.value.toFixed(2)} %, lag ${lag.value.toFixed(1)} ms`),
    );
  }

  function show(result: ChooseResult): void {
    const save = h(
      'button',
      {
        type: 'button',
        id: 'save-settings',
        onclick: () => {
          server
            ?.ask({ do: 'write settings', settings: result.pick.settings })
            .then(() => say('The settings stand in the rig file now; its comments stayed.'))
            .catch((error: Error) => say(error.message));
        },
      },
      'Put the pick into the rig file',
    );
    fill(
      tries,
      h('h3', {}, 'Try on the live hand'),
      h(
        'ul',
        { class: 'plain' },
        row(result.pick, 'the pick'),
        ...result.runnersUp.slice(0, 4).map((one, i) => row(one, `runner-up ${i + 1}`)),
      ),
      server && save,
    );
    fill(answer, fromReport([...answerSections(result), ...evidenceSections(result)].join('\n')));
  }

  return {
    id: 'choose',
    title: 'Choose',
    shown: showInUse,
    element: h(
      'div',
      { class: 'column' },
      h(
        'p',
        {},
        'Simulates this build many times within the tolerances of its parts and finds the settings that meet your wishes. Takes a minute or less; the live hand goes on meanwhile.',
      ),
      h('div', { class: 'row' }, start, draws, progress),
      told,
      inUse,
      tries,
      answer,
    ),
  };
}
