import { adaptive } from './adaptive.ts';
import { saturate, toWord } from './calibrate.ts';
import { clip } from './clip.ts';
import { exponential } from './exponential.ts';
import { drag, jump, moves } from './hysteresis.ts';
import { medianOfThree } from './median.ts';
import { oneEuro, oneEuroSpeed } from './one-euro.ts';
import type { ChainConstants } from './prepare.ts';

/** What one finger's chain remembers between frames, in units of the summed reading. */
export interface FingerState {
  /** 0 until the first reading has come. */
  started: number;
  level: number;
  speed: number;
  held: number;
  /** The two readings before this one, for the median. */
  before1: number;
  before2: number;
}

/** State of a finger that has seen nothing yet. */
export function newFingerState(): FingerState {
  return { started: 0, level: 0, speed: 0, held: 0, before1: 0, before2: 0 };
}

/** The first reading, or the first after a gap, is taken as it is: no ramp from nought. */
export function startFinger(f: FingerState, reading: number): void {
  f.started = 1;
  f.level = reading;
  f.speed = 0;
  f.held = reading;
  f.before1 = reading;
  f.before2 = reading;
}

/**
 * One frame of one finger: median, clip, still band, low-pass, hold.
 * @param f state, changed in place
 * @param reading sum of the frame's readings (each 0-1), not NaN
 */
export function stepFinger(f: FingerState, reading: number, k: ChainConstants): void {
  if (k.median) {
    const middle = medianOfThree(reading, f.before1, f.before2);
    f.before2 = f.before1;
    f.before1 = reading;
    smooth(f, middle, k);
  } else {
    smooth(f, reading, k);
  }
  if (k.hold === 1) f.held = drag(f.held, f.level, k.half);
  else if (k.hold === 2) f.held = jump(f.held, f.level, k.half);
  else f.held = f.level;
}

function smooth(f: FingerState, input: number, k: ChainConstants): void {
  const step = clip(input - f.level, k.limit);
  // The one euro stage keeps its speed up to date even while the finger rests.
  if (k.filter === 2) f.speed = oneEuroSpeed(f.speed, step, k.frameRateHz, k.speedGain);
  if (moves(step, k.bandSquared)) {
    if (k.filter === 1) f.level = exponential(f.level, step, k.gain);
    else if (k.filter === 2) f.level = oneEuro(f.level, step, f.speed, k.base, k.rise);
    else if (k.filter === 3) f.level = adaptive(f.level, step, k.base, k.rise);
    else f.level = f.level + step;
  }
}

/** Word of the finger for the frame; the fraction is dropped by the store. */
export function fingerWord(f: FingerState, k: ChainConstants): number {
  return saturate(toWord(f.held, k.wordGain, k.wordOffset));
}
