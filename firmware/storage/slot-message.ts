// Host only: what to tell a user about the stored calibration, from the codes that the board gives.
import {
  RECORD_ABSENT,
  RECORD_DAMAGED,
  RECORD_OTHER_HAND,
  RECORD_OTHER_SETTINGS,
  RECORD_UNKNOWN_VERSION,
  RECORD_VALID,
} from '../../protocol/calibration-record.ts';
import {
  SAVE_BAD_ENDS,
  SAVE_DONE,
  SAVE_FAILED,
  SAVE_FULL,
  SAVE_KEPT,
  SAVE_UNCHANGED,
} from './calibration-store.ts';

const STATE_WORDS: { [state: number]: string } = {
  [RECORD_VALID]: 'is valid',
  [RECORD_ABSENT]: 'is empty',
  [RECORD_DAMAGED]: 'is damaged',
  [RECORD_UNKNOWN_VERSION]: 'was stored by a newer program; it is kept',
  [RECORD_OTHER_SETTINGS]: 'was captured for another rig or other pins; it is kept',
  [RECORD_OTHER_HAND]: 'is of the other hand; it is kept',
};

/** The board's answer to "stored", subject 1, taken apart. */
export interface StoredStates {
  /** RECORD code of each slot. */
  states: [number, number];
  /** Slot in use; -1 = none. */
  slot: number;
}

/** @param answer from `packStates` */
export function storedStates(answer: number): StoredStates {
  return { states: [answer & 15, (answer >> 4) & 15], slot: ((answer >> 8) & 15) - 1 };
}

/** Which calibration a board uses, and why not another one. */
export function storedMessage({ states, slot }: StoredStates): string {
  const words = states
    .map((state, i) => `slot ${i} ${STATE_WORDS[state] ?? `has state ${state}`}`)
    .join(', ');
  return slot < 0
    ? `No stored calibration is used, the ends built into the program are: ${words}. Capture the ends and store them.`
    : `The calibration in slot ${slot} is used: ${words}.`;
}

const SAVE_WORDS: { [code: number]: string } = {
  [SAVE_DONE]: 'The calibration is stored and was read back.',
  [SAVE_UNCHANGED]: 'The calibration was stored already: nothing was written.',
  [SAVE_FULL]:
    'The board has no room to store the calibration without moving files. Stop the stream, compact the storage, store again.',
  [SAVE_FAILED]:
    'What was stored reads back otherwise; the calibration before it is untouched. Compact the storage with the stream stopped, store again.',
  [SAVE_KEPT]:
    'The slot that is due holds a calibration that is not this program’s. Store with "replace" to overwrite it.',
  [SAVE_BAD_ENDS]:
    'The captured ends are no ends: outside 0 to 1, or open and closed alike. Capture them again.',
};

/** What became of a save. @param code one of the SAVE codes */
export function saveMessage(code: number): string {
  return SAVE_WORDS[code] ?? `The board answered ${code} to "store", which this program does not know.`;
}
