import { type Flick, flicksOf } from './features/flicks.ts';
import { medianOf, quantileOf, sortedOf } from './features/statistics.ts';
import { medianRows, scaledOf } from './features/travel-rows.ts';
import type { FingerLook, HandLook } from './look.ts';

/** A finger whose travel spans less than this share of the planned range does not move. Assumed. */
export const MOVES = 0.12;

/** Least travel that counts as movement, in the finger's own travel. */
export function leastMoveOf(finger: FingerLook): number {
  return (MOVES * finger.plan.spanCounts[0]) / Math.max(1, Math.abs(finger.spanCounts));
}

/** Rows of a passage in a second. */
export function rowRateHz(timesS: Float64Array): number {
  return timesS.length > 1 ? (timesS.length - 1) / (timesS[timesS.length - 1]! - timesS[0]!) : 0;
}

/**
 * Movement of a finger in a passage from where it began (0) to its farthest place (1), whichever way that is; undefined
 * where it does not move.
 */
export function movementOf(finger: FingerLook, passage: 'slow' | 'flick'): Float64Array | undefined {
  const look = finger.hand[passage];
  if (!look) return undefined;
  const { travel } = look;
  const begin = travel.slice(0, Math.max(10, Math.floor(travel.length / 40))).filter((t) => !Number.isNaN(t));
  if (begin.length === 0) return undefined;
  const start = medianOf(begin);
  const sorted = sortedOf(travel);
  const low = quantileOf(sorted, 0.01);
  const high = quantileOf(sorted, 0.99);
  const far = high - start >= start - low ? high : low;
  if (Math.abs(far - start) < leastMoveOf(finger)) return undefined;
  return travel.map((t) => (t - start) / (far - start));
}

/** Which way a finger's travel goes when it leaves the open hand: 1 up as it should, -1 down, 0 not known. */
export function wayOf(finger: FingerLook): number {
  const look = finger.hand.slow ?? finger.hand.flick;
  if (!look) return 0;
  const begin = look.travel
    .slice(0, Math.max(10, Math.floor(look.travel.length / 40)))
    .filter((t) => !Number.isNaN(t));
  if (begin.length === 0) return 0;
  const start = medianOf(begin);
  const up = look.range.high - start;
  const down = start - look.range.low;
  if (Math.max(up, down) < leastMoveOf(finger)) return 0;
  return up > 3 * down ? 1 : down > 3 * up ? -1 : 0;
}

/** Closure that the other fingers show in the slow passage, 0-1: what this finger should follow. */
export function referenceFor(
  hand: HandLook,
  finger: FingerLook,
  skip: ReadonlySet<number>,
): Float64Array | undefined {
  const others: Float64Array[] = [];
  for (const other of hand.fingers) {
    const look = other.hand.slow;
    if (other === finger || skip.has(other.plan.slot) || !look) continue;
    const scaled = scaledOf(look.travel, look.range, leastMoveOf(other));
    if (!scaled) continue;
    others.push(wayOf(other) < 0 ? scaled.map((s) => 1 - s) : scaled);
  }
  return others.length > 0 ? medianRows(others) : undefined;
}

/** Shortest flick, s: a rapid pinch takes about 90 ms (Cole & Abbs 1986), half of it beyond half way. */
const SHORTEST_S = 0.04;

/** Height of a finger's own flicks at least; lower ones may be passed on by a neighbour. Assumed. */
const OWN = 0.85;

/** Flicks of a finger in its passage. */
export function flicksFor(hand: HandLook, finger: FingerLook): Flick[] {
  const rows = hand.evidence.hand.flick;
  const movement = movementOf(finger, 'flick');
  if (!rows || !movement) return [];
  const all = flicksOf(movement, Math.max(2, Math.round(SHORTEST_S * rowRateHz(rows.timesS))));
  return all.filter((flick) => movement[flick.top]! > OWN);
}
