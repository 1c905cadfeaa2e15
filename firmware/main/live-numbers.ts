/** Numbers of the chain that commands change while the program runs. SPEC.md lists their indexes. */
import {
  NUMBER_BAND_SQUARED,
  NUMBER_BASE,
  NUMBER_GAIN,
  NUMBER_HALF,
  NUMBER_LIMIT,
  NUMBER_RISE,
  NUMBER_SPEED_GAIN,
  NUMBER_WORD_GAIN,
  NUMBER_WORD_OFFSET,
  SUBJECT_ALL,
} from '../../protocol/commands.ts';
import { wordGain, wordOffset } from '../chain/word-scale.ts';
import { isSteady, putAll } from './hand.ts';
import type { Program } from './program.ts';

/** Share of full scale that must lie between two ends. Assumed: far above noise, below every useful build. */
export const LEAST_SPAN = 0.1;
/** Largest word gain and offset: with them no word leaves 32 bits. */
const GAIN_MAX = 1e6;
const OFFSET_MAX = 1e7;

/** Whether a number is one that a filter can live with: others would stay in its state for good. SPEC.md, live numbers. */
function isInRange(index: number, value: number): boolean {
  if (index === NUMBER_LIMIT) return value > 0;
  if (index === NUMBER_GAIN || index === NUMBER_SPEED_GAIN) return value > 0 && value <= 1;
  if (index === NUMBER_BASE) return value >= 1;
  if (index === NUMBER_WORD_GAIN) return value !== 0 && value >= -GAIN_MAX && value <= GAIN_MAX;
  if (index === NUMBER_WORD_OFFSET) return value >= -OFFSET_MAX && value <= OFFSET_MAX;
  return value >= 0;
}

/**
 * Sets a number of a finger. Gain, base and speed gain do not depend on a finger's ends: they are the whole hand's,
 * whichever finger is named.
 * @param slot place among the five values
 * @returns false if there is no such finger, no stage that has the number, or it is out of its range
 */
export function setNumber(p: Program, slot: number, index: number, value: number): boolean {
  let isSet = false;
  if (!isInRange(index, value)) return false;
  for (let i = 0; i < p.build.slots.length; i++) {
    if (slot === p.build.slots[i]) isSet = setOf(p, i, index, value);
  }
  if (isSet) putAll(p);
  return isSet;
}

function setOf(p: Program, finger: number, index: number, value: number): boolean {
  const k = p.constants[finger];
  if (index === NUMBER_LIMIT && k.clipped) {
    k.limit = value;
    k.limitSquared = value * value;
  } else if (index === NUMBER_BAND_SQUARED && k.still) k.bandSquared = value;
  else if (index === NUMBER_RISE && k.filter > 1) k.rise = value;
  else if (index === NUMBER_HALF && k.hold > 0) k.half = value;
  else if (index === NUMBER_WORD_GAIN) k.wordGain = value;
  else if (index === NUMBER_WORD_OFFSET) k.wordOffset = value;
  else return setShared(p, index, value);
  return true;
}

/** Gain, base and speed gain: of all fingers. */
export function setShared(p: Program, index: number, value: number): boolean {
  const filter = p.constants[0].filter;
  if (index === NUMBER_GAIN && filter === 1) {
    for (let i = 0; i < p.constants.length; i++) p.constants[i].gain = value;
  } else if (index === NUMBER_BASE && filter > 1) {
    for (let i = 0; i < p.constants.length; i++) p.constants[i].base = value;
  } else if (index === NUMBER_SPEED_GAIN && filter === 2) {
    for (let i = 0; i < p.constants.length; i++) p.constants[i].speedGain = value;
  } else return false;
  return true;
}

/** @returns NaN if there is no such finger or number */
export function getNumber(p: Program, slot: number, index: number): number {
  let value = NaN;
  for (let i = 0; i < p.build.slots.length; i++) {
    if (slot === p.build.slots[i]) {
      const k = p.constants[i];
      if (index === NUMBER_LIMIT && k.clipped) value = k.limit;
      else if (index === NUMBER_BAND_SQUARED && k.still) value = k.bandSquared;
      else if (index === NUMBER_GAIN && k.filter === 1) value = k.gain;
      else if (index === NUMBER_BASE && k.filter > 1) value = k.base;
      else if (index === NUMBER_RISE && k.filter > 1) value = k.rise;
      else if (index === NUMBER_SPEED_GAIN && k.filter === 2) value = k.speedGain;
      else if (index === NUMBER_HALF && k.hold > 0) value = k.half;
      else if (index === NUMBER_WORD_GAIN) value = k.wordGain;
      else if (index === NUMBER_WORD_OFFSET) value = k.wordOffset;
    }
  }
  return value;
}

/**
 * New ends of a finger: its words follow them, and the numbers that stand for shares of full closure are brought to
 * the new span.
 * @param finger index among the wired ones
 */
export function applyEnds(p: Program, finger: number, open: number, closed: number): void {
  for (let i = 0; i < p.build.slots.length; i++) if (i === finger) applyTo(p, i, open, closed);
}

function applyTo(p: Program, finger: number, open: number, closed: number): void {
  const k = p.constants[finger];
  const at = 2 * p.build.slots[finger];
  const before = p.io.ends[at + 1] - p.io.ends[at];
  const ratio = (closed - open) / before;
  const scale = ratio < 0 ? -ratio : ratio;
  if (k.clipped) {
    k.limit = k.limit * scale;
    k.limitSquared = k.limit * k.limit;
  }
  if (k.still) k.bandSquared = k.bandSquared * scale * scale;
  if (k.hold > 0) k.half = k.half * scale;
  // one euro: per speed; adaptive: per square of the step
  if (k.filter === 2) k.rise = k.rise / scale;
  else if (k.filter === 3) k.rise = k.rise / scale / scale;
  k.wordGain = wordGain(open, closed, p.build.oversampling);
  k.wordOffset = wordOffset(open, closed);
  p.io.ends[at] = open;
  p.io.ends[at + 1] = closed;
  p.run.captured = p.run.captured | (1 << p.build.slots[finger]);
}

/**
 * Takes the present level for the open end of a finger, or of all of them.
 * @returns false when there is no present level, no such finger, or when it lies next to the closed end
 */
export function zero(p: Program, slot: number): boolean {
  let isDone = false;
  if (!isSteady(p)) return false;
  for (let i = 0; i < p.build.slots.length; i++) {
    if (slot === p.build.slots[i] || slot === SUBJECT_ALL) {
      const reading = p.fingers[i].level / p.build.oversampling;
      const closed = p.io.ends[2 * p.build.slots[i] + 1];
      if (reading - closed > LEAST_SPAN || closed - reading > LEAST_SPAN) {
        applyEnds(p, i, reading, closed);
        isDone = true;
      }
    }
  }
  if (isDone) putAll(p);
  return isDone;
}
