import type { Ends } from '../../firmware/chain/word-scale.ts';
import {
  COMMAND_CAPTURE_BEGIN,
  COMMAND_CAPTURE_END,
  COMMAND_RESTART,
  COMMAND_STORE,
  SUBJECT_ALL,
} from '../../protocol/commands.ts';
import { nominalEnds } from '../../sim/board/nominal-readings.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { travelOf } from '../live/travel.ts';
import { calmChain } from './calm-chain.ts';
import { type CapturePose, MOVE_S, ONCE_MORE, type PlannedStep, stepsWith } from './capture-steps.ts';
import { type CapturedFinger, capturedFinger, judgementIn, wrongEnds } from './captured-ends.ts';
import { type FingerJudgement, judgeFinger, type Samples } from './judge.ts';
import { createFeedback, type FingerFeedback } from './level-feedback.ts';
import { type CommandTaker, readEnds, refused } from './read-ends.ts';

/**
 * - `ready`: not begun
 * - `asking`: the board is asked for its ends, or told what to do
 * - `moving`: the hand has a moment to move to the pose
 * - `holding`: the pose is captured
 * - `done`
 */
export type CapturePhase = 'ready' | 'asking' | 'moving' | 'holding' | 'done';

export interface CaptureState {
  phase: CapturePhase;
  /** The step that is under way; undefined before the first and after the last. */
  step: PlannedStep | undefined;
  /** Its number from 0 on, and how many there are. */
  number: number;
  count: number;
  /** Until the next step, s. */
  leftS: number;
  fingers: FingerFeedback[];
}

export interface CaptureResult {
  /** Whether the new ends are in use and stored. */
  isStored: boolean;
  /** Ends as travel by the ends that the board had before. */
  fingers: FingerJudgement[];
  /** Ends and points in readings, for a profile; empty unless the board has new ends. */
  captured: CapturedFinger[];
  /** What became of it, in a sentence or two. */
  words: string;
}

export interface Capture {
  /**
   * Begins; settles when all is done.
   * @throws TautlineError `calibrate/...` when the board does not do what it is told; it is started anew then
   */
  run(): Promise<CaptureResult>;
  /** Takes every frame of the session: they carry the time too, so a host whose frames stop has to stop it. */
  take(frame: LiveFrame): void;
  /** Ends it: nothing is stored. @param why a sentence */
  stop(why: string): void;
  state(): CaptureState;
}

/** Rounds that are added where the board's ends come out wrong. */
const MOST_ROUNDS = 2;

/**
 * A guided capture of both ends, and of poses between them. The board collects the ends itself all the while; they are
 * taken and stored only if every finger is judged good by what the host saw, and if the board's ends are where the host
 * saw the hand. If not, the board starts anew with the ends that it had.
 * @param onChange told at each frame and step
 */
export function createCapture(
  rig: Rig,
  board: CommandTaker,
  onChange: (state: CaptureState) => void = () => {},
  poses: readonly CapturePose[] = [],
): Capture {
  const slots = rig.fingers.map(({ name }) => FINGER_NAMES.indexOf(name));
  const names = rig.fingers.map(({ name }) => name);
  const planned = rig.fingers.map((finger) => nominalEnds(rig, finger));
  // While it runs the words are readings: see calmChain.
  const feedback = createFeedback(names, slots, (i, word) => shareOf(travelOf(word), before[i]!));
  const steps = stepsWith(poses);
  const lastOpen = steps.findLast(({ step }) => step === 'open');
  /** Readings of each step by finger. */
  const rows: { plan: PlannedStep; samples: (number | null)[][] }[] = [];
  let before: Ends[] = [];
  let phase: CapturePhase = 'ready';
  let count = steps.length;
  let stopped: string | undefined;
  let now: { plan: PlannedStep; fromS: number | undefined; leftS: number; end: () => void } | undefined;

  function enter(next: CapturePhase): void {
    phase = next;
    onChange(state());
  }

  function state(): CaptureState {
    return {
      phase,
      step: now?.plan,
      number: Math.max(0, rows.length - 1),
      count,
      leftS: now?.leftS ?? 0,
      fingers: feedback.fingers(),
    };
  }

  async function order(code: number, what: string, value = 0): Promise<number> {
    const { result, answer } = await board.command(code, SUBJECT_ALL, 0, value);
    if (result !== 0 && code !== COMMAND_STORE) throw refused(what, result);
    if (result < 0) throw refused(what, result);
    return answer;
  }

  /** Passes one step. */
  function pass(plan: PlannedStep): Promise<void> {
    if (stopped !== undefined) return Promise.resolve();
    rows.push({ plan, samples: slots.map(() => []) });
    return new Promise((resolve) => {
      const end = () => {
        now = undefined;
        resolve();
      };
      now = { plan, fromS: undefined, leftS: MOVE_S + plan.lengthS, end };
      enter('moving');
    });
  }

  /** Samples of a kind of step of one finger, share of the planned travel. */
  function samplesOf(finger: number, kind: PlannedStep['step'], pose?: number): Samples[] {
    return rows
      .filter(({ plan: { step, pose: index } }) => step === kind && index === pose)
      .map(({ samples }) => samples[finger]!.map((reading) => shareOf(reading, planned[finger]!)));
  }

  function judge(): FingerJudgement[] {
    return names.map((name, i) =>
      judgeFinger({
        name,
        rest: samplesOf(i, 'rest').flat(),
        open: samplesOf(i, 'open'),
        fist: samplesOf(i, 'fist'),
        poses: poses.map((pose, index) => ({
          name: pose.name,
          closure: pose.closure,
          samples: samplesOf(i, 'pose', index).flat(),
        })),
      }),
    );
  }

  async function notStored(words: string, fingers: FingerJudgement[] = []): Promise<CaptureResult> {
    await order(COMMAND_RESTART, 'start anew');
    const shown = fingers.map((finger, i) => judgementIn(finger, planned[i]!, before[i]!));
    return {
      isStored: false,
      fingers: shown,
      captured: [],
      words: `${words} The board keeps the ends that it had.`,
    };
  }

  /** Round after round until the board's ends are where the hand was seen. */
  async function rounds(): Promise<CaptureResult> {
    // At once, so that a board that cannot is known before anybody has done anything ...
    await order(COMMAND_CAPTURE_BEGIN, 'begin the capture');
    for (const step of steps) {
      await pass(step);
      // ... and anew with the hand open for the last time: play and what went wrong before are no ends.
      if (step === lastOpen && stopped === undefined) await order(COMMAND_CAPTURE_BEGIN, 'begin the capture');
    }
    for (let round = 0; ; round++) {
      if (stopped !== undefined) return notStored(stopped);
      enter('asking');
      const fingers = judge();
      if (!fingers.every(({ isGood }) => isGood)) return notStored('Not stored.', fingers);
      const answer = await order(COMMAND_CAPTURE_END, 'take the new ends');
      const lacking = names.filter((_, i) => ((answer >> slots[i]!) & 1) === 0);
      if (lacking.length > 0) {
        return notStored(`Not stored: the board saw too little movement of ${lacking.join(', ')}.`, fingers);
      }
      const captured = fingers.map((finger, i) => capturedFinger(finger, planned[i]!));
      const wrong = wrongEnds(captured, await readEnds(rig, board));
      if (wrong.length === 0) return store(fingers, captured);
      if (round >= MOST_ROUNDS) return notStored(`Not stored: ${wrong.join('; ')}.`, fingers);
      await onceMore();
    }
  }

  /** A board's capture holds whatever was the farthest: it is begun anew with the hand open. */
  async function onceMore(): Promise<void> {
    count += ONCE_MORE.length;
    await calmChain(rig, board);
    for (const plan of ONCE_MORE) {
      await pass(plan);
      if (plan.step === 'open' && stopped === undefined)
        await order(COMMAND_CAPTURE_BEGIN, 'begin the capture');
    }
  }

  async function store(fingers: FingerJudgement[], captured: CapturedFinger[]): Promise<CaptureResult> {
    const answer = await order(COMMAND_STORE, 'store the new ends', 1);
    if (answer > 1) return notStored(storeWords(answer), fingers);
    // Its filters are to be what they were, and the stored ends are proved.
    await order(COMMAND_RESTART, 'start anew');
    const shown = fingers.map((finger, i) => judgementIn(finger, planned[i]!, before[i]!));
    return { isStored: true, fingers: shown, captured, words: storeWords(answer) };
  }

  return {
    state,
    async run() {
      if (phase !== 'ready') throw new RangeError('A capture runs once: create another one.');
      enter('asking');
      try {
        before = await readEnds(rig, board);
        await calmChain(rig, board);
        return await rounds();
      } catch (error) {
        // Whatever became of the capture: no half of it is left on the board.
        await board.command(COMMAND_RESTART, SUBJECT_ALL, 0, 0).catch(() => {});
        throw error;
      } finally {
        now = undefined;
        enter('done');
      }
    },
    stop(why) {
      if (phase === 'done' || stopped !== undefined) return;
      stopped = why;
      now?.end();
    },
    take(frame) {
      if (frame.kind !== 'hand' || frame.step < 1 || phase === 'ready' || phase === 'done') return;
      feedback.take(frame);
      if (now) {
        now.fromS ??= frame.hostS;
        const sinceS = frame.hostS - now.fromS;
        const { samples } = rows[rows.length - 1]!;
        now.leftS = Math.max(0, MOVE_S + now.plan.lengthS - sinceS);
        if (sinceS >= MOVE_S) {
          phase = 'holding';
          slots.forEach((slot, i) => void samples[i]!.push(travelOf(frame.values[slot]!)));
        }
        if (now.leftS === 0) now.end();
      }
      onChange(state());
    },
  };
}

/** Where a reading lies between two ends, 0-1; null stays null. */
function shareOf(reading: number | null, ends: Ends): number | null {
  return reading === null ? null : (reading - ends.open) / (ends.closed - ends.open);
}

/** Answers of the store command; see protocol/SPEC.md. */
function storeWords(answer: number): string {
  const words = [
    'Stored: the board has new ends, also after a restart.',
    'Stored already: the ends are the same as before.',
    'Not stored: the board has no room.',
    'Not stored: the board could not write.',
    'Not stored: the board keeps a record of another build.',
    'Not stored: the ends are none.',
  ];
  return words[answer] ?? `The board answered ${answer}.`;
}
