import { minimumJerk } from '../../sim/hand/minimum-jerk.ts';
import { FINGER_NAMES, type FingerName, type Rig } from '../../sim/rig/rig.ts';
import { keys } from '../../sim/seed/mix.ts';
import { openStream } from '../../sim/seed/stream.ts';
import type { GuideStep } from './guide.ts';

/** One step of a session on the device's clock. */
export interface TimedStep extends GuideStep {
  fromS: number;
  toS: number;
}

/** Time between two steps, in which the hand goes to where the next one begins, s. */
export const BETWEEN_S = 0.7;

/** Puts the steps in a row. @param startS of the first one */
export function timed(steps: readonly GuideStep[], startS: number): TimedStep[] {
  let fromS = startS;
  return steps.map((step) => {
    const toS = fromS + step.lengthS;
    const entry = { ...step, fromS, toS };
    fromS = toS + BETWEEN_S;
    return entry;
  });
}

/** How one person moves: not all fingers at once, not each time as far. Spreads are assumed. */
interface Habits {
  restAt: number;
  /** Delay of each finger, share of a slow closing. */
  delay: number[];
  tremorHz: number;
  tremorPhase: number[];
  flickS: number;
}

const DELAY = 0.01;
/** Tremor at the fingertip's closure: 30 um at the fingertip are about 0.02 deg of 90 (Growdon 2000; computed). */
const TREMOR = 0.0002;

/**
 * Closure of every finger over a guided session, for a simulated hand.
 * @returns closure 0-1 of a finger at a time on the device's clock
 */
export function sessionMotion(
  rig: Rig,
  steps: readonly TimedStep[],
  seed: number,
): (finger: FingerName, timeS: number) => number {
  const stream = openStream(keys(0x5e, seed, 0));
  const habits: Habits = {
    restAt: stream.between(0.35, 0.5),
    delay: FINGER_NAMES.map(() => stream.between(-DELAY, DELAY)),
    tremorHz: stream.between(6, 12),
    tremorPhase: FINGER_NAMES.map(() => stream.between(0, 6)),
    flickS: stream.between(0.12, 0.2),
  };
  const order = rig.fingers.map((finger) => FINGER_NAMES.indexOf(finger.name)).sort((a, b) => a - b);
  let at = 0;
  return (finger, timeS) => {
    const slot = FINGER_NAMES.indexOf(finger);
    // Time only goes forward in a session, but each finger asks for it.
    if (at > 0 && timeS < steps[at]!.fromS) at = 0;
    while (at + 1 < steps.length && timeS >= steps[at + 1]!.fromS) at++;
    const step = steps[at]!;
    const local = Math.max(0, timeS - step.fromS);
    const tremor = TREMOR * Math.sin(2 * Math.PI * habits.tremorHz * timeS + habits.tremorPhase[slot]!);
    if (timeS <= step.toS) return closureOf(step, slot, order, local, habits) + tremor;
    const next = steps[at + 1];
    const from = closureOf(step, slot, order, step.lengthS, habits);
    const to = next ? closureOf(next, slot, order, 0, habits) : from;
    return from + (to - from) * minimumJerk(Math.min(1, (timeS - step.toS) / BETWEEN_S)) + tremor;
  };
}

function closureOf(
  step: GuideStep,
  slot: number,
  order: readonly number[],
  tS: number,
  habits: Habits,
): number {
  switch (step.step.kind) {
    case 'rest':
    case 'rawRest':
      return habits.restAt;
    case 'slow':
      return slowly((2 * tS) / step.lengthS + habits.delay[slot]!);
    case 'rawSlow':
      return slowly(tS / step.lengthS + habits.delay[slot]!);
    case 'flick': {
      const own = tS - 0.5 - ((step.lengthS - 1) / order.length) * order.indexOf(slot);
      const { flickS } = habits;
      if (own < 0 || own > 2 * flickS + 0.1) return 0;
      if (own < flickS) return 0.95 * minimumJerk(own / flickS);
      return own < flickS + 0.1 ? 0.95 : 0.95 * (1 - minimumJerk((own - flickS - 0.1) / flickS));
    }
  }
}

/** One slow closing and opening a turn. */
function slowly(turns: number): number {
  if (turns < 0 || turns > 2) return 0;
  const phase = turns % 1;
  if (phase < 0.08) return 0;
  if (phase < 0.42) return minimumJerk((phase - 0.08) / 0.34);
  if (phase < 0.56) return 1;
  return phase < 0.9 ? 1 - minimumJerk((phase - 0.56) / 0.34) : 0;
}
