import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import type { GatherStep } from './gather.ts';

/** One step of the guided session. */
export interface GuideStep {
  step: GatherStep;
  /** Channel whose raw frames the board is to send; -1 = hand frames. */
  rawSlot: number;
  lengthS: number;
  /** What the user is asked to do. */
  say: string;
}

/** The guided session: 26 s of hand frames with five fingers, and 9 s for each finger's raw frames. */
export function guideOf(rig: Rig): GuideStep[] {
  const steps: GuideStep[] = [
    {
      step: { kind: 'rest' },
      rawSlot: -1,
      lengthS: 6,
      say: 'Rest your hand on the table, half closed, and keep it still.',
    },
    {
      step: { kind: 'slow' },
      rawSlot: -1,
      lengthS: 12,
      say: 'Open the hand. Close all fingers slowly, wait, open slowly; twice, in about six seconds each.',
    },
    {
      step: { kind: 'flick' },
      rawSlot: -1,
      lengthS: 1 + 1.4 * rig.fingers.length,
      say: 'Open the hand. Close and open one finger after the other, fast, thumb first, with a second in between.',
    },
  ];
  const slots = rig.fingers.map((finger) => FINGER_NAMES.indexOf(finger.name)).sort((a, b) => a - b);
  for (const slot of slots) {
    const name = FINGER_NAMES[slot]!;
    steps.push(
      {
        step: { kind: 'rawRest', slot },
        rawSlot: slot,
        lengthS: 3,
        say: `Rest the hand, half closed and still: raw readings of the ${name}.`,
      },
      {
        step: { kind: 'rawSlow', slot },
        rawSlot: slot,
        lengthS: 6,
        say: `Close and open all fingers slowly, once: raw readings of the ${name}.`,
      },
    );
  }
  return steps;
}
