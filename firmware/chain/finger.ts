import { adaptive } from './adaptive.ts';
import { overflows, saturate, toWord } from './calibrate.ts';
import { clip, exceeds } from './clip.ts';
import { exponential } from './exponential.ts';
import { dragged, leaves, moves } from './hysteresis.ts';
import { medianOfThree } from './median.ts';
import { oneEuro, oneEuroSpeed } from './one-euro.ts';
import type { ChainConstants } from './prepare.ts';

/** What one finger's chain remembers between frames, in units of the summed reading. */
export interface FingerState {
  level: number;
  speed: number;
  /** The chain's output. */
  held: number;
  /** The two readings before this one, for the median. */
  before1: number;
  before2: number;
}

/** State of a finger that has seen nothing yet: its first reading starts it. */
export function newFingerState(): FingerState {
  return { level: 0, speed: 0, held: 0, before1: 0, before2: 0 };
}

/** The first reading, or the first after a gap, is taken as it is: no ramp from nought. */
export function startFinger(f: FingerState, reading: number): void {
  f.level = reading;
  f.speed = 0;
  f.held = reading;
  f.before1 = reading;
  f.before2 = reading;
}

/**
 * One frame of one finger: median, still band, clip, low-pass, hold. Stages that a resting finger does not need
 * come behind the test that finds it resting: they cost it nothing.
 * @param f state, changed in place
 * @param reading sum of the frame's readings (each 0-1), not NaN
 * @returns whether the output may have changed
 */
export function stepFinger(f: FingerState, reading: number, k: ChainConstants): boolean {
  const step = despiked(f, reading, k) - f.level;
  if (k.still) {
    if (moves(step, k.bandSquared)) {
      follow(f, limited(step, k), k);
      return settle(f, k);
    }
    // The one euro stage keeps its speed up to date even while the finger rests.
    if (k.filter === 2) f.speed = oneEuroSpeed(f.speed, step, k.frameRateHz, k.speedGain);
    return false;
  }
  follow(f, limited(step, k), k);
  return settle(f, k);
}

function despiked(f: FingerState, reading: number, k: ChainConstants): number {
  if (!k.median) return reading;
  const middle = medianOfThree(reading, f.before1, f.before2);
  f.before2 = f.before1;
  f.before1 = reading;
  return middle;
}

function limited(step: number, k: ChainConstants): number {
  if (!k.clipped) return step;
  // The one test that nearly all steps pass; the clip itself is the exception.
  if (exceeds(step, k.limitSquared)) return clip(step, k.limit);
  return step;
}

function follow(f: FingerState, step: number, k: ChainConstants): void {
  if (k.filter === 1) f.level = exponential(f.level, step, k.gain);
  else if (k.filter === 2) {
    f.speed = oneEuroSpeed(f.speed, step, k.frameRateHz, k.speedGain);
    f.level = oneEuro(f.level, step, f.speed, k.base, k.rise);
  } else if (k.filter === 3) f.level = adaptive(f.level, step, k.base, k.rise);
  else f.level = f.level + step;
}

/** The hold behind the low-pass. @returns whether the output may have changed */
function settle(f: FingerState, k: ChainConstants): boolean {
  if (k.hold > 0) {
    const over = f.level - f.held;
    if (leaves(over, k.half)) {
      f.held = k.hold === 1 ? dragged(f.level, over, k.half) : f.level;
      return true;
    }
    return false;
  }
  f.held = f.level;
  return true;
}

/** The chain's output; without a hold the low-pass's. */
function output(f: FingerState, k: ChainConstants): number {
  return k.hold === 0 ? f.level : f.held;
}

/**
 * Writes the word of the finger; the store drops the fraction.
 * @param at index into `words`
 */
export function putWord(words: Uint16Array, at: number, f: FingerState, k: ChainConstants): void {
  const word = toWord(output(f, k), k.wordGain, k.wordOffset);
  words[at] = word;
  if (overflows(word)) words[at] = saturate(word);
}
