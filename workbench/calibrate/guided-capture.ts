import type { CommandOutcome } from '../../protocol/command-sender.ts';
import {
  COMMAND_CAPTURE_BEGIN,
  COMMAND_CAPTURE_END,
  COMMAND_RESTART,
  COMMAND_STORE,
  SUBJECT_ALL,
} from '../../protocol/commands.ts';
import { TautlineError } from '../../sim/errors.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { travelOf } from '../live/travel.ts';
import { type FingerCapture, type FingerJudgement, judgeFinger } from './judge.ts';

export type CaptureStep = 'rest' | 'open' | 'fist';

/** What a user is led through: the same poses twice, so that repeats can be compared. */
export const CAPTURE_STEPS: readonly { step: CaptureStep; say: string; lengthS: number }[] = [
  { step: 'rest', say: 'Lay the open hand down and keep it still.', lengthS: 2 },
  { step: 'open', say: 'Open the hand wide.', lengthS: 2.5 },
  { step: 'fist', say: 'Make a fist.', lengthS: 2.5 },
  { step: 'open', say: 'Open the hand wide once more.', lengthS: 2.5 },
  { step: 'fist', say: 'Make a fist once more.', lengthS: 2.5 },
];

/** What a capture needs of the world. */
export interface CaptureHost {
  command(code: number, subject: number, index: number, value: number): Promise<CommandOutcome>;
  onFrame(listener: (frame: LiveFrame) => void): () => void;
  /** @returns false when the user ended it */
  wait(seconds: number): Promise<boolean>;
  /** Told before each step. */
  onStep(step: CaptureStep, say: string, number: number): void;
}

export interface CaptureResult {
  /** Whether the new ends are in use and stored. */
  isStored: boolean;
  fingers: FingerJudgement[];
  /** What became of it, in a sentence. */
  words: string;
}

/**
 * Leads through a capture of both ends. The board collects them itself meanwhile; they are taken and stored only if
 * every finger is judged good by what the host saw. If not, the board starts anew with the ends that it had.
 * @throws TautlineError `calibrate/...` when the board does not do what it is told
 */
export async function guidedCapture(rig: Rig, host: CaptureHost): Promise<CaptureResult> {
  const slots = rig.fingers.map(({ name }) => FINGER_NAMES.indexOf(name));
  const captures: (FingerCapture & {
    rest: (number | null)[];
    open: (number | null)[][];
    fist: (number | null)[][];
  })[] = rig.fingers.map(({ name }) => ({ name, rest: [], open: [], fist: [] }));
  await order(host, COMMAND_CAPTURE_BEGIN, 'begin the capture');
  for (const [number, { step, say, lengthS }] of CAPTURE_STEPS.entries()) {
    host.onStep(step, say, number);
    // The hand gets a moment to move there.
    const isWhole = (await host.wait(0.7)) && (await collect(step, lengthS));
    if (!isWhole) {
      await backToStored(host);
      return { isStored: false, fingers: [], words: 'Stopped: the board keeps the ends that it had.' };
    }
  }
  const fingers = captures.map(judgeFinger);
  if (!fingers.every(({ isGood }) => isGood)) {
    await backToStored(host);
    return { isStored: false, fingers, words: 'Not stored: the board keeps the ends that it had.' };
  }
  const { answer } = await order(host, COMMAND_CAPTURE_END, 'take the new ends');
  const lacking = rig.fingers.filter((_, i) => ((answer >> slots[i]!) & 1) === 0);
  if (lacking.length > 0) {
    await backToStored(host);
    const names = lacking.map(({ name }) => name).join(', ');
    return { isStored: false, fingers, words: `Not stored: the board saw too little movement of ${names}.` };
  }
  const stored = await order(host, COMMAND_STORE, 'store the new ends', 1);
  return { isStored: true, fingers, words: storeWords(stored.answer) };

  async function collect(step: CaptureStep, lengthS: number): Promise<boolean> {
    const rows = slots.map((): (number | null)[] => []);
    const stop = host.onFrame((frame) => {
      if (frame.kind !== 'hand' || frame.step < 1) return;
      slots.forEach((slot, i) => void rows[i]!.push(travelOf(frame.values[slot]!)));
    });
    const isWhole = await host.wait(lengthS);
    stop();
    captures.forEach((capture, i) => {
      if (step === 'rest') capture.rest.push(...rows[i]!);
      else capture[step].push(rows[i]!);
    });
    return isWhole;
  }
}

async function backToStored(host: CaptureHost): Promise<void> {
  await order(host, COMMAND_RESTART, 'start anew');
}

async function order(host: CaptureHost, code: number, what: string, value = 0): Promise<CommandOutcome> {
  const outcome = await host.command(code, SUBJECT_ALL, 0, value);
  if (outcome.result === 0) return outcome;
  const why =
    outcome.result < 0
      ? 'it did not answer'
      : outcome.result === 3
        ? 'not now, it says'
        : `it answered ${outcome.result}`;
  throw new TautlineError('calibrate/refused', `The board would not ${what}: ${why}.`, {
    detail: 'Let hand frames come for a second (no raw readings), then try again.',
  });
}

/** Answers of the store command; see protocol/SPEC.md. */
function storeWords(answer: number): string {
  const words = [
    'Stored: the board has new ends, also after a restart.',
    'Stored already: the ends are the same as before.',
    'Not stored: the board has no room. The new ends hold until it starts anew.',
    'Not stored: the board could not write. The new ends hold until it starts anew.',
    'Not stored: the board keeps a record of another build.',
    'Not stored: the ends are none.',
  ];
  return words[answer] ?? `The board answered ${answer}.`;
}
