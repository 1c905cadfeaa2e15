import { FAULT_KINDS, type Fault, type FaultKind, WHOLE_HAND_FAULTS } from '../../../sim/device/faults.ts';
import { flicking, puppetScene, resting, slowly } from '../../../sim/device/motions.ts';
import type { FingerName } from '../../../sim/rig/rig.ts';
import { FAULT_WORDS } from '../../diagnose/fault-words.ts';
import { fill, h } from '../dom.ts';
import type { ViewContext } from './view.ts';

const MOTIONS = { scene: puppetScene, rest: resting, slow: slowly, flicks: flicking };
const MOTION_WORDS = { scene: 'puppet scene', rest: 'rest', slow: 'slow closing', flicks: 'flicks' };

/** The simulator's own controls: how the hand moves, and what is wrong with the build. */
export function faultDrawer({ engine, say }: ViewContext): HTMLElement {
  const body = h('div', {});
  const panel = h(
    'details',
    { class: 'panel', id: 'faults' },
    h('summary', {}, 'Simulator: movement and faults'),
    body,
  );
  const kind = h(
    'select',
    { id: 'fault-kind', 'aria-label': 'Fault' },
    ...FAULT_KINDS.map((name) => h('option', { value: name }, FAULT_WORDS[name])),
  );
  const finger = h(
    'select',
    { id: 'fault-finger', 'aria-label': 'Finger' },
    ...engine.rig.fingers.map(({ name }) => h('option', { value: name }, name)),
  );
  const strength = h(
    'select',
    { id: 'fault-strength', 'aria-label': 'Strength' },
    h('option', { value: '0.25' }, 'mild'),
    h('option', { value: '0.5', selected: true }, 'clear'),
    h('option', { value: '1' }, 'gross'),
  );
  const listed = h('ul', { class: 'plain' });

  function set(faults: readonly Fault[]): void {
    engine.simulated.setFaults(faults);
    fill(
      listed,
      ...faults.map((fault, i) =>
        h(
          'li',
          {},
          `${FAULT_WORDS[fault.kind]}${fault.finger ? `, ${fault.finger}` : ''} `,
          h(
            'button',
            {
              type: 'button',
              class: 'small',
              onclick: () => set(engine.simulated.faults().filter((_, j) => j !== i)),
            },
            'mend',
          ),
        ),
      ),
    );
  }

  const add = () => {
    const chosen = kind.value as FaultKind;
    const isWhole = WHOLE_HAND_FAULTS.includes(chosen);
    const fault: Fault = {
      kind: chosen,
      strength: Number(strength.value),
      ...(!isWhole && { finger: finger.value as FingerName }),
    };
    set([...engine.simulated.faults(), fault]);
    say(`Built in: ${FAULT_WORDS[chosen]}.`);
  };
  const motion = h(
    'select',
    {
      id: 'motion',
      'aria-label': 'Movement',
      onchange: () => {
        const name = motion.value as keyof typeof MOTIONS;
        engine.simulated.move(MOTIONS[name], name);
      },
    },
    ...Object.entries(MOTION_WORDS).map(([name, words]) => h('option', { value: name }, words)),
  );
  fill(
    body,
    h('label', {}, 'The hand plays ', motion),
    h(
      'div',
      { class: 'row' },
      kind,
      finger,
      strength,
      h('button', { type: 'button', id: 'add-fault', onclick: add }, 'Build it in'),
    ),
    listed,
    h(
      'button',
      { type: 'button', class: 'small', onclick: () => engine.simulated.restart() },
      'Reset the board',
    ),
  );
  const update = () => panel.toggleAttribute('hidden', engine.source()?.kind !== 'simulator');
  engine.onEvent(update);
  update();
  return panel;
}
