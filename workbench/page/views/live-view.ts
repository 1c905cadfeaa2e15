import { STATUS_UNCALIBRATED } from '../../../protocol/frame.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';
import { fill, h, setText } from '../dom.ts';
import { createStripChart, STRIP_S } from '../strip-chart.ts';
import { percent } from '../words.ts';
import { faultDrawer } from './fault-drawer.ts';
import { recordPanel } from './record-panel.ts';
import type { View, ViewContext } from './view.ts';

/** The live hand: a strip and a bar for each finger, the link's health, recording, and the simulator's faults. */
export function liveView(context: ViewContext): View {
  const { engine } = context;
  const slots = engine.rig.fingers.map(({ name }) => FINGER_NAMES.indexOf(name));
  let status = 0;
  engine.onFrame((frame) => {
    status = frame.status;
  });

  const rows = slots.map((slot) => {
    const name = FINGER_NAMES[slot]!;
    const chart = createStripChart(name);
    const value = h('output', { class: 'value', 'aria-label': `${name} now` });
    const bar = h('div', { class: 'bar-fill' });
    const element = h(
      'section',
      { class: 'finger' },
      h('div', { class: 'finger-head' }, h('h3', {}, name), value),
      h('div', { class: 'bar', 'aria-hidden': 'true' }, bar),
      chart.element,
    );
    return { slot, chart, value, bar, element };
  });

  const facts = [
    'frames a second',
    'lost',
    'repeated or late',
    'time between frames, sd',
    'longest wait',
    'clock drift',
    'starts, for lack of voltage',
    'bytes of nothing',
    'calibration',
  ].map((words) => ({ words, value: h('td', { class: 'n' }, '–') }));
  const health = h(
    'table',
    { class: 'health' },
    h('caption', {}, 'Link'),
    h('tbody', {}, ...facts.map(({ words, value }) => h('tr', {}, h('th', { scope: 'row' }, words), value))),
  );
  const events = h('ul', { class: 'events', 'aria-label': 'What happened' });
  const showEvents = () => {
    const told = engine.events
      .filter(({ kind }) => kind !== 'state')
      .slice(-8)
      .reverse();
    fill(
      events,
      ...(told.length === 0 ? [h('li', { class: 'soft' }, 'Nothing to report.')] : []),
      ...told.map(({ hostS, seen, next }) =>
        h(
          'li',
          {},
          h('span', { class: 'when' }, `${hostS.toFixed(1)} s `),
          seen,
          next === '' ? '' : ` ${next}`,
        ),
      ),
    );
  };
  engine.onEvent(showEvents);
  showEvents();

  const element = h(
    'div',
    { class: 'live' },
    h('div', { class: 'strips' }, ...rows.map((row) => row.element)),
    h(
      'aside',
      { class: 'side' },
      health,
      h('section', { class: 'panel' }, h('h3', {}, 'What happened'), events),
      recordPanel(context),
      faultDrawer(context),
    ),
  );

  let lastHealthS = 0;
  return {
    id: 'live',
    title: 'Live',
    element,
    shown() {
      for (const { chart } of rows) chart.resize();
    },
    paint() {
      for (const { slot, chart, value, bar } of rows) {
        const now = engine.rings.latest(slot);
        setText(value, now === null ? 'no value' : percent(now));
        bar.style.transform = `scaleX(${Math.max(0, Math.min(1, now ?? 0))})`;
        bar.classList.toggle('is-invalid', now === null);
        chart.draw(...engine.rings.read(slot, STRIP_S));
      }
      if (performance.now() / 1000 - lastHealthS < 0.25) return;
      lastHealthS = performance.now() / 1000;
      const one = engine.health();
      if (!one) return;
      const words = [
        one.rateHz.toFixed(1),
        String(one.lost),
        `${one.duplicates + one.reordered}`,
        `${one.jitterMs.toFixed(2)} ms`,
        `${one.burstMs.toFixed(0)} ms`,
        one.driftPpm === undefined ? 'not yet known' : `${one.driftPpm.toFixed(0)} ppm`,
        `${one.starts}, ${one.brownOuts}`,
        String(one.garbageBytes),
        (status & STATUS_UNCALIBRATED) !== 0 ? 'none stored' : 'stored',
      ];
      for (const [i, { value }] of facts.entries()) setText(value, words[i]!);
    },
  };
}
