import { COMMAND_RAW, SUBJECT_ALL } from '../../../protocol/commands.ts';
import { flicking, type HandMotion, resting, slowly } from '../../../sim/device/motions.ts';
import { diagnose } from '../../diagnose/diagnose.ts';
import { FAULT_WORDS } from '../../diagnose/fault-words.ts';
import type { Diagnosis, Finding } from '../../diagnose/finding.ts';
import { createGatherer, type GatherStep } from '../../diagnose/gather.ts';
import { type GuideStep, guideOf } from '../../diagnose/guide.ts';
import { fill, h, setText } from '../dom.ts';
import type { View, ViewContext } from './view.ts';

/** What the simulator's hand plays for a step, so that its user need not. */
const PLAYS: Record<GatherStep['kind'], HandMotion> = {
  rest: (finger, timeS) => 0.5 + 0 * resting(finger, timeS),
  rawRest: (finger, timeS) => 0.5 + 0 * resting(finger, timeS),
  slow: (_, timeS) => wave(timeS, 6),
  rawSlow: (_, timeS) => wave(timeS, 6),
  flick: (finger, timeS) => flicking(finger, Math.max(0, timeS - 0.7)),
};

/** Closing and opening once in so many seconds, with a short wait closed. */
function wave(timeS: number, periodS: number): number {
  const part = (timeS % periodS) / periodS;
  return part < 0.42
    ? part / 0.42
    : part < 0.5
      ? 1
      : part < 0.92
        ? 1 - (part - 0.5) / 0.42
        : 0 * slowly('thumb', 0);
}

/** A guided look at the whole hand, and what is wrong with it. */
export function diagnoseView({ engine, say }: ViewContext): View {
  const start = h(
    'button',
    { type: 'button', id: 'diagnose', class: 'main', onclick: () => void run() },
    'Start the guided look',
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
  const told = h('p', { class: 'task', role: 'status' }, '');
  const progress = h('progress', { max: 1, value: 0, hidden: true, 'aria-label': 'Progress' });
  const result = h('div', { id: 'diagnosis' });
  let isStopped = false;

  async function step(one: GuideStep, gatherer: ReturnType<typeof createGatherer>): Promise<boolean> {
    const session = engine.session();
    if (!session) return false;
    await session.command(COMMAND_RAW, one.rawSlot < 0 ? SUBJECT_ALL : one.rawSlot, 0, 0);
    setText(told, one.say);
    engine.simulated.move(PLAYS[one.step.kind], 'guided');
    await engine.wait(0.5);
    gatherer.begin(one.step);
    const isWhole = await engine.wait(one.lengthS, () => isStopped);
    gatherer.end();
    return isWhole;
  }

  async function run(): Promise<void> {
    if (engine.health()?.state !== 'streaming') {
      say('No frames come: connect a board, a recording or the simulator first.');
      return;
    }
    isStopped = false;
    start.disabled = true;
    cancel.hidden = false;
    progress.hidden = false;
    const gatherer = createGatherer();
    const stopHearing = engine.onFrame((frame) => gatherer.take(frame));
    const steps = guideOf(engine.rig);
    const whole = steps.reduce((sum, { lengthS }) => sum + lengthS, 0);
    let doneS = 0;
    try {
      for (const one of steps) {
        if (!(await step(one, gatherer))) break;
        doneS += one.lengthS;
        progress.value = doneS / whole;
      }
      show(diagnose(gatherer.evidence(), engine.rig));
    } catch (error) {
      say(error instanceof Error ? error.message : String(error));
    } finally {
      stopHearing();
      await engine
        .session()
        ?.command(COMMAND_RAW, SUBJECT_ALL, 0, 0)
        .catch(() => {});
      start.disabled = false;
      cancel.hidden = true;
      progress.hidden = true;
      setText(told, '');
    }
  }

  function show({ findings, unjudged, clear }: Diagnosis): void {
    fill(
      result,
      findings.length === 0
        ? h(
            'p',
            { class: 'headline' },
            unjudged.length === 0 ? 'No fault found.' : 'No fault found in what could be judged.',
          )
        : h(
            'p',
            { class: 'headline' },
            findings.length === 1
              ? 'One fault found.'
              : `${findings.length} faults found, the most certain first.`,
          ),
      ...findings.map(findingCard),
      unjudged.length > 0 &&
        h(
          'section',
          {},
          h('h3', {}, 'Not judged'),
          h('ul', {}, ...unjudged.map(({ what, next }) => h('li', {}, `${what} ${next}`))),
        ),
      h(
        'p',
        { class: 'soft' },
        `Looked for and not found: ${clear.map((kind) => FAULT_WORDS[kind]).join(', ')}.`,
      ),
    );
  }

  return {
    id: 'diagnose',
    title: 'Diagnose',
    element: h(
      'div',
      { class: 'column' },
      h(
        'p',
        {},
        'A minute and a half: rest, slow closing, quick fingers, then each finger’s raw readings. What is wrong is named with what was seen, what else it could be, and the cure.',
      ),
      h('div', { class: 'row' }, start, cancel, progress),
      told,
      result,
    ),
  };
}

function findingCard(finding: Finding): HTMLElement {
  const who = finding.fingers.length > 4 ? 'all fingers' : finding.fingers.join(', ');
  return h(
    'article',
    { class: 'finding' },
    h('h3', {}, `${who}: ${FAULT_WORDS[finding.fault]}`),
    h(
      'p',
      { class: 'soft' },
      `${(100 * finding.confidence).toFixed(0)} % sure${finding.orElse.length > 0 ? `; it may as well be ${finding.orElse.map((kind) => FAULT_WORDS[kind]).join(', ')}` : ''}`,
    ),
    h('ul', {}, ...finding.evidence.map((sentence) => h('li', {}, sentence))),
    ...finding.cure.map((sentence) => h('p', { class: 'cure' }, sentence)),
    finding.rulesOut.length > 0 && h('p', { class: 'soft' }, `Not: ${finding.rulesOut.join(' ')}`),
  );
}
