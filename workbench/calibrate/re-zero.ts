import { NUMBER_WORD_OFFSET } from '../../protocol/commands.ts';
import { TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';
import { FINGER_NAMES, type Rig } from '../../sim/rig/rig.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { travelOf } from '../live/travel.ts';
import { type CommandTaker, liveNumber, setNumber } from './read-ends.ts';

/** Least frames that a zero is taken from, and most movement among them, travel. Assumed. */
const LEAST_FRAMES = 20;
const MOST_MOVEMENT = 0.03;
/** A zero farther off than this is no drift, travel. Assumed. */
const MOST_SHIFT = 0.25;

export interface ReZero {
  isDone: boolean;
  /** By how much the open end of each finger was moved, travel; 0 where it was left. */
  shifts: { name: string; shift: number }[];
  words: string;
}

/**
 * One touch with the hand open: both ends of every finger are moved by what its open end has drifted, so that the span
 * stays. (The board's own command zero moves the open end alone, which changes the span.) It lasts until the board
 * starts anew: the stored ends stay what they were.
 * @param frames hand frames of the last half second or so
 * @throws TautlineError `calibrate/refused`
 */
export async function reZero(rig: Rig, board: CommandTaker, frames: readonly LiveFrame[]): Promise<ReZero> {
  const shifts: { name: string; slot: number; shift: number }[] = [];
  for (const { name } of rig.fingers) {
    const slot = FINGER_NAMES.indexOf(name);
    const travels = frames
      .filter(({ kind, step }) => kind === 'hand' && step >= 1)
      .map(({ values }) => travelOf(values[slot]!))
      .filter((travel): travel is number => travel !== null)
      .sort((a, b) => a - b);
    const at = (share: number) => travels[Math.floor(share * (travels.length - 1))]!;
    if (travels.length < LEAST_FRAMES) {
      return refusal(
        `${travels.length} frames of ${name} with a value, expected ${LEAST_FRAMES} or more: wait a second.`,
      );
    }
    // A tenth on either side may be wrong.
    if (at(0.9) - at(0.1) > MOST_MOVEMENT) {
      return refusal(
        `${name} moves by ${pct(at(0.9) - at(0.1))}, expected at most ${pct(MOST_MOVEMENT)}: hold the open hand still.`,
      );
    }
    const shift = at(0.5);
    if (Math.abs(shift) > MOST_SHIFT) {
      return refusal(
        `${name} is at ${pct(shift)}, expected within ${pct(MOST_SHIFT)} of the open end: open the hand, or capture both ends anew.`,
      );
    }
    shifts.push({ name, slot, shift });
  }
  for (const { slot, shift } of shifts) {
    // The gain, which is the span, stays.
    const offset = await liveNumber(board, slot, NUMBER_WORD_OFFSET);
    await setNumber(board, slot, NUMBER_WORD_OFFSET, offset - shift * TRAVEL_WORDS);
  }
  return {
    isDone: true,
    shifts: shifts.map(({ name, shift }) => ({ name, shift })),
    words:
      'Open is where the hand is now; the span stayed. It lasts until the board starts anew: capture both ends to store it.',
  };
}

/** Words from the open to the closed end. */
const TRAVEL_WORDS = TRAVEL_CLOSED_WORD - TRAVEL_OPEN_WORD;

function refusal(seen: string): ReZero {
  return { isDone: false, shifts: [], words: `Nothing changed: ${seen}` };
}

function pct(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
