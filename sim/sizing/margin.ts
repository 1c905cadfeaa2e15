import { FINGER_NAMES, type FingerName } from '../rig/rig.ts';

/** One thing that can go wrong, and how far from it a build is. */
export interface Margin {
  group: 'spool' | 'spring' | 'guides' | 'wiring' | 'pins' | 'power' | 'parts';
  /** Fingers that it holds for. */
  fingers: string[];
  /** A matter of comfort: below 1 it works, but not well. */
  isSoft: boolean;
  /** What is judged, e.g. `travel used by the largest hand`. */
  what: string;
  /** What there is over what is needed: below 1 it does not work, and just above 1 it only just does. */
  ratio: number;
  /** What there is and what is allowed, in numbers and units. */
  seen: string;
  allowed: string;
  /** What to do about it. */
  cure: string;
}

/** Below this a margin is called tight. Assumed. */
const TIGHT = 1.1;

export function verdictOf(margin: Margin): 'no' | 'tight' | 'ok' {
  if (margin.ratio < 1) return margin.isSoft ? 'tight' : 'no';
  return margin.ratio < TIGHT ? 'tight' : 'ok';
}

/** The tightest margin of each group, the worst first. */
export function tightest(margins: readonly Margin[]): Margin[] {
  const worst = new Map<string, Margin>();
  for (const margin of margins) {
    const before = worst.get(margin.group);
    if (!before || order(margin, before) < 0) worst.set(margin.group, margin);
  }
  return [...worst.values()].sort(order);
}

/** What does not work comes before what is uncomfortable, the smaller ratio before the larger. */
function order(a: Margin, b: Margin): number {
  const rank = (margin: Margin) => (verdictOf(margin) === 'no' ? 0 : 1);
  return rank(a) - rank(b) || a.ratio - b.ratio;
}

/** One entry for all fingers of which the same is to be said. */
export function joined(margins: readonly Margin[]): Margin[] {
  const same = new Map<string, Margin>();
  for (const margin of margins) {
    const key = JSON.stringify({ ...margin, fingers: [], ratio: margin.ratio.toPrecision(9) });
    const before = same.get(key);
    same.set(key, before ? { ...before, fingers: [...before.fingers, ...margin.fingers] } : margin);
  }
  const order = (name: string) => FINGER_NAMES.indexOf(name as FingerName);
  return [...same.values()].map((margin) => ({
    ...margin,
    fingers: [...margin.fingers].sort((a, b) => order(a) - order(b)),
  }));
}
