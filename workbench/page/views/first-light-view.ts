import { FINGER_NAMES, type FingerName } from '../../../sim/rig/rig.ts';
import {
  FIRST_LIGHT_STEPS,
  type FirstLightState,
  judgeFirstLight,
  STEP_GUIDES,
} from '../../live/first-light.ts';
import { travelOf } from '../../live/travel.ts';
import { fill, h, setText } from '../dom.ts';
import type { View, ViewContext } from './view.ts';

/** One finger before five: four steps, each judged from what the board sends. */
export function firstLightView({ engine, say }: ViewContext): View {
  const finger = h(
    'select',
    { id: 'first-finger', 'aria-label': 'Finger' },
    ...engine.rig.fingers.map(({ name }) => h('option', { value: name }, name)),
  );
  const start = h(
    'button',
    { type: 'button', id: 'first-light', class: 'main', onclick: () => void run() },
    'Begin',
  );
  const told = h('p', { class: 'task', role: 'status' }, '');
  const results = h('ol', { class: 'steps' });

  /** Frames of a step, and the movement that the simulator plays for it. */
  async function collect(slot: number, closureTo: number, lengthS: number): Promise<(number | null)[]> {
    const before = engine.simulated.closures()?.[slot] ?? 0;
    engine.simulated.move((_, timeS) => before + (closureTo - before) * Math.min(1, timeS / 0.8), 'guided');
    const travel: (number | null)[] = [];
    const stop = engine.onFrame((frame) => {
      if (frame.kind === 'hand') travel.push(travelOf(frame.values[slot]!));
    });
    await engine.wait(lengthS);
    stop();
    return travel;
  }

  async function run(): Promise<void> {
    start.disabled = true;
    fill(results);
    const slot = FINGER_NAMES.indexOf(finger.value as FingerName);
    const state: FirstLightState = { openTravel: 0, closedTravel: 0 };
    let isGood = true;
    for (const step of FIRST_LIGHT_STEPS) {
      const { ask, lengthS } = STEP_GUIDES[step];
      setText(told, ask);
      const travel = await collect(slot, step === 'direction' ? 1 : 0, lengthS);
      const result = judgeFirstLight(step, travel, state);
      results.append(
        h(
          'li',
          { class: result.isGood ? 'is-good' : 'is-bad' },
          h('strong', {}, result.isGood ? '✓ ' : '✗ '),
          result.seen,
          result.next !== '' && h('p', { class: 'cure' }, result.next),
        ),
      );
      isGood &&= result.isGood;
      if (!result.isGood) break;
    }
    setText(
      told,
      isGood
        ? `The ${finger.value} is alive. Go on with the next finger.`
        : 'Mend this first, then begin again.',
    );
    start.disabled = false;
    if (!isGood) say('First light: one step failed.');
  }

  return {
    id: 'first-light',
    title: 'First light',
    element: h(
      'div',
      { class: 'column' },
      h(
        'p',
        {},
        'One finger before five. Tie one string only, then go through four steps: signal, direction, return, quiet. Each tells what to check with a multimeter when it fails.',
      ),
      h(
        'p',
        { class: 'notice' },
        'Supply from USB only. Do not solder while it is plugged in, and wear eye protection when a spring is wound: it can fly out.',
      ),
      h('div', { class: 'row' }, h('label', {}, 'Finger ', finger), start),
      told,
      results,
    ),
  };
}
