import { COMMAND_ZERO, SUBJECT_ALL } from '../../../protocol/commands.ts';
import { TautlineError } from '../../../sim/errors.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';
import {
  CAPTURE_STEPS,
  type CaptureResult,
  type CaptureStep,
  guidedCapture,
} from '../../calibrate/guided-capture.ts';
import { fill, h, setText } from '../dom.ts';
import { percent } from '../words.ts';
import type { View, ViewContext } from './view.ts';

/** What the simulator's hand plays for a step, so that its user need not. */
const POSES: Record<CaptureStep | 'pose', number> = { rest: 0, open: 0, fist: 1, pose: 0.5 };

/** Guided capture of both ends with live feedback, and re-zero. */
export function calibrateView({ engine, say }: ViewContext): View {
  const slots = engine.rig.fingers.map(({ name }) => FINGER_NAMES.indexOf(name));
  const start = h(
    'button',
    { type: 'button', id: 'calibrate', class: 'main', onclick: () => void run() },
    'Capture both ends',
  );
  const cancel = h(
    'button',
    {
      type: 'button',
      hidden: true,
      onclick: () => {
        isStopped = true;
      },
    },
    'Stop',
  );
  const zero = h('button', { type: 'button', id: 'zero', onclick: () => void reZero() }, 'Open is here now');
  const told = h('p', { class: 'task', role: 'status' }, '');
  const result = h('div', { id: 'calibration' });
  let isStopped = false;
  const levels = slots.map((slot) => {
    const value = h('output', { class: 'value' }, '–');
    const bar = h('div', { class: 'bar-fill' });
    const row = h(
      'div',
      {},
      h('strong', {}, FINGER_NAMES[slot]),
      h('div', { class: 'bar', 'aria-hidden': 'true' }, bar),
      value,
    );
    return { slot, value, bar, row };
  });

  function words(error: unknown): string {
    return error instanceof TautlineError ? `${error.message} ${error.detail}` : String(error);
  }

  async function run(): Promise<void> {
    const session = engine.session();
    if (!session || engine.health()?.state !== 'streaming') {
      say('No frames come: connect a board or the simulator first.');
      return;
    }
    isStopped = false;
    start.disabled = true;
    cancel.hidden = false;
    fill(result);
    let from = 0;
    try {
      const done = await guidedCapture(engine.rig, {
        command: (...order) => session.command(...order),
        onFrame: (listener) => engine.onFrame(listener),
        wait: (seconds) => engine.wait(seconds, () => isStopped),
        onStep(step, text, number) {
          setText(told, `${number + 1} of ${CAPTURE_STEPS.length}: ${text}`);
          const [before, to] = [from, POSES[step]];
          from = to;
          engine.simulated.move((_, timeS) => before + (to - before) * Math.min(1, timeS / 0.5), 'guided');
        },
      });
      show(done);
    } catch (error) {
      say(words(error));
    } finally {
      setText(told, '');
      start.disabled = false;
      cancel.hidden = true;
    }
  }

  async function reZero(): Promise<void> {
    try {
      const outcome = await engine.session()?.command(COMMAND_ZERO, SUBJECT_ALL, 0, 0);
      say(
        outcome?.result === 0
          ? 'The open end is where the hand is now; the closed end stayed.'
          : 'The board would not take it: let hand frames come for a second, then try again.',
      );
    } catch (error) {
      say(words(error));
    }
  }

  function show({ isStored, fingers, words: sentence }: CaptureResult): void {
    fill(
      result,
      h('p', { class: 'headline' }, `${isStored ? '✓' : '✗'} ${sentence}`),
      ...fingers.map(({ name, isGood, open, closed, glitches, problems }) =>
        h(
          'article',
          { class: 'finding' },
          h('h3', {}, `${isGood ? '✓' : '✗'} ${name}`),
          h(
            'p',
            { class: 'soft' },
            `open ${percent(open)}, fist ${percent(closed)} of the ends before; ${glitches} single wrong readings left out`,
          ),
          ...problems.map(({ seen, expected, next }) =>
            h(
              'p',
              { class: 'cure' },
              `${seen}; expected ${expected}. ${next[0]!.toUpperCase()}${next.slice(1)}.`,
            ),
          ),
        ),
      ),
    );
  }

  return {
    id: 'calibrate',
    title: 'Calibrate',
    paint() {
      for (const { slot, value, bar } of levels) {
        const now = engine.rings.latest(slot);
        setText(value, now === null ? 'no value' : percent(now));
        bar.style.transform = `scaleX(${Math.max(0, Math.min(1, now ?? 0))})`;
      }
    },
    element: h(
      'div',
      { class: 'column' },
      h(
        'p',
        {},
        'Both ends of every finger: rest, open, fist, open, fist. The board collects them; they are taken and stored only if what was seen is steady, wide enough and the same twice. If not, the board keeps what it had.',
      ),
      h('div', { class: 'row' }, start, cancel, zero),
      told,
      h('div', { class: 'levels', 'aria-label': 'Levels now' }, ...levels.map(({ row }) => row)),
      result,
    ),
  };
}
