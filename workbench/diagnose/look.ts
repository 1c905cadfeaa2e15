import { type Ends, readingOfWord } from '../../firmware/chain/word-scale.ts';
import { INVALID_VALUE, TRAVEL_CLOSED_WORD, TRAVEL_OPEN_WORD } from '../../protocol/frame.ts';
import type { Rig } from '../../sim/rig/rig.ts';
import type { Evidence, HandRows, PassageName } from './evidence.ts';
import { type Expected, expectedOf } from './expect.ts';
import { type TravelRange, travelRangeOf, travelRows } from './features/travel-rows.ts';
import { lookAtRaw, type RawLook } from './raw-look.ts';

/** One finger's travel over one passage. */
export interface TravelLook {
  travel: Float64Array;
  range: TravelRange;
  /** Whether the words stand at the lowest or the highest that a word can hold: what lies beyond is not seen. */
  isHeldLow: boolean;
  isHeldHigh: boolean;
}

/** All that is known of one finger. */
export interface FingerLook {
  plan: Expected;
  /** Counts for a travel of 0 and what a travel of 1 adds to it. */
  openCounts: number;
  spanCounts: number;
  hand: { [name in PassageName]?: TravelLook };
  rawRest: RawLook | undefined;
  rawSlow: RawLook | undefined;
}

/** The whole hand as the rules see it. */
export interface HandLook {
  rig: Rig;
  evidence: Evidence;
  fingers: FingerLook[];
}

export function lookAt(evidence: Evidence, rig: Rig): HandLook {
  const plans = expectedOf(rig);
  const travels: { [name in PassageName]?: Float64Array[] } = {};
  for (const [name, rows] of Object.entries(evidence.hand) as [PassageName, HandRows][]) {
    travels[name] = travelRows(rows);
  }
  return {
    rig,
    evidence,
    fingers: plans.map((plan) => {
      const hand: FingerLook['hand'] = {};
      for (const [name, rows] of Object.entries(evidence.hand) as [PassageName, HandRows][]) {
        const travel = travels[name]![plan.slot]!;
        if (travel.length > 0) {
          const words = rows.words[plan.slot]!;
          hand[name] = {
            travel,
            range: travelRangeOf(travel),
            isHeldLow: shareOf(words, 0) > HELD,
            isHeldHigh: shareOf(words, INVALID_VALUE - 1) > HELD,
          };
        }
      }
      const rest = evidence.rawRest[plan.slot];
      const slow = evidence.rawSlow[plan.slot];
      const rawSlow = slow && slow.timesS.length > 0 ? lookAtRaw(slow, rig) : undefined;
      const known = evidence.ends[plan.slot];
      const ends =
        known ?? (evidence.isCalibrated ? endsOfRaw(hand.slow, rawSlow) : undefined) ?? plan.nominal;
      const open = 4096 * readingOfWord(TRAVEL_OPEN_WORD, ends);
      return {
        plan,
        openCounts: open,
        spanCounts: 4096 * readingOfWord(TRAVEL_CLOSED_WORD, ends) - open,
        hand,
        rawRest: rest && rest.timesS.length > 0 ? lookAtRaw(rest, rig) : undefined,
        rawSlow,
      };
    }),
  };
}

/**
 * Ends that a board captured and the host does not know: from the same slow movement seen as travel and as readings.
 * @returns undefined where the two do not span enough to tell
 */
function endsOfRaw(slow: TravelLook | undefined, raw: RawLook | undefined): Ends | undefined {
  if (!slow || !raw || slow.isHeldLow || slow.isHeldHigh) return undefined;
  const span = slow.range.high - slow.range.low;
  if (!(span > 0.3) || raw.high - raw.low < 100) return undefined;
  const perTravel = (raw.high - raw.low) / span;
  const open = raw.low - slow.range.low * perTravel;
  return { open: open / 4096, closed: (open + perTravel) / 4096 };
}

/** Share of the rows at a word's limit from which the limit hides something. Assumed. */
const HELD = 0.01;

function shareOf(words: Uint16Array, wanted: number): number {
  let there = 0;
  for (const word of words) if (word === wanted) there++;
  return there / Math.max(1, words.length);
}

/** Reading in counts at a travel. */
export function countsOfTravel(finger: FingerLook, travel: number): number {
  return finger.openCounts + travel * finger.spanCounts;
}

/** Readings of the open and the closed finger, counts: from raw frames where there are any, as words have limits. */
export function seenEnds(finger: FingerLook): { open: number; closed: number } | undefined {
  const { rawSlow: raw, hand } = finger;
  const way = finger.spanCounts < 0;
  if (raw) return way ? { open: raw.high, closed: raw.low } : { open: raw.low, closed: raw.high };
  if (!hand.slow) return undefined;
  return {
    open: countsOfTravel(finger, hand.slow.range.low),
    closed: countsOfTravel(finger, hand.slow.range.high),
  };
}
