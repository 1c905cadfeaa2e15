import type { Ends } from '../../firmware/chain/word-scale.ts';

/** Passages of a guided session, in the order in which the user is led through them. */
export const PASSAGES = ['rest', 'slow', 'flick'] as const;
/**
 * - `rest`: the hand open and still
 * - `slow`: all fingers together close slowly and open again, twice or more
 * - `flick`: each finger in turn, thumb first, closes and opens fast, with a pause before the next
 */
export type PassageName = (typeof PASSAGES)[number];

/** Hand frames of one passage. */
export interface HandRows {
  /** Board's clock, s, rising. */
  timesS: Float64Array;
  /** words[slot][row]: travel words as sent, 65535 = no valid value; slot 0 is the thumb. */
  words: Uint16Array[];
}

/** Raw frames of one channel: single readings, five a frame. */
export interface RawRows {
  /** Board's clock when each frame was packed, s, rising. */
  timesS: Float64Array;
  /** Readings, counts; five for each time, oldest first. */
  counts: Uint16Array;
  /** Time between readings of a frame, s; 0 = back to back. */
  paceS: number;
}

/** What a health frame said. */
export interface HealthRow {
  timeS: number;
  /** Supply, mV; undefined = the board cannot measure it. */
  supplyMv: number | undefined;
  /** Errors caught since the program started. */
  errors: number;
}

/** All that a diagnosis looks at. Whatever is missing is not judged. */
export interface Evidence {
  hand: { [name in PassageName]?: HandRows };
  /** Raw frames at rest, by slot; holes where a channel was not recorded. */
  rawRest: (RawRows | undefined)[];
  /** Raw frames while all fingers close and open slowly, by slot. */
  rawSlow: (RawRows | undefined)[];
  health: HealthRow[];
  /**
   * Ends that the board's words refer to, by slot, as mean readings 0-1; undefined = those that the rig's nominal parts
   * give, which a program starts with.
   */
  ends: (Ends | undefined)[];
  /** Whether the ends were captured on this hand, so that travel is meant to run from 0 to 1. */
  isCalibrated: boolean;
  /** Whether the hand was led through the passages: only then do fingers have to move, all the way, and in order. */
  isGuided: boolean;
}

/** Evidence of nothing yet. */
export function emptyEvidence(): Evidence {
  return { hand: {}, rawRest: [], rawSlow: [], health: [], ends: [], isCalibrated: false, isGuided: true };
}
