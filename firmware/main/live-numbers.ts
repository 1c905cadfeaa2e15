/** Numbers of the chain that commands change while the program runs. SPEC.md lists their indexes. */
import { putWord } from '../chain/finger.ts';
import { wordGain, wordOffset } from '../chain/word-scale.ts';
import type { Program } from './program.ts';

const LIMIT = 0;
const BAND_SQUARED = 1;
const GAIN = 2;
const BASE = 3;
const RISE = 4;
const SPEED_GAIN = 5;
const HALF = 6;
const WORD_GAIN = 7;
const WORD_OFFSET = 8;

/**
 * Sets a number of a finger. Gain, base and speed gain do not depend on a finger's ends: they are the whole hand's,
 * whichever finger is named.
 * @param slot place among the five values
 * @returns false if there is no such finger, or no stage that has the number
 */
export function setNumber(p: Program, slot: number, index: number, value: number): boolean {
  let isSet = false;
  for (let i = 0; i < p.build.slots.length; i++) {
    if (slot === p.build.slots[i]) isSet = setOf(p, i, index, value);
  }
  if (isSet) putAll(p);
  return isSet;
}

function setOf(p: Program, finger: number, index: number, value: number): boolean {
  const k = p.constants[finger];
  if (index === LIMIT && k.clipped) {
    k.limit = value;
    k.limitSquared = value * value;
  } else if (index === BAND_SQUARED && k.still) k.bandSquared = value;
  else if (index === RISE && k.filter > 1) k.rise = value;
  else if (index === HALF && k.hold > 0) k.half = value;
  else if (index === WORD_GAIN) k.wordGain = value;
  else if (index === WORD_OFFSET) k.wordOffset = value;
  else return setShared(p, index, value);
  return true;
}

/** Gain, base and speed gain: of all fingers. */
export function setShared(p: Program, index: number, value: number): boolean {
  const filter = p.constants[0].filter;
  if (index === GAIN && filter === 1) {
    for (let i = 0; i < p.constants.length; i++) p.constants[i].gain = value;
  } else if (index === BASE && filter > 1) {
    for (let i = 0; i < p.constants.length; i++) p.constants[i].base = value;
  } else if (index === SPEED_GAIN && filter === 2) {
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
      if (index === LIMIT && k.clipped) value = k.limit;
      else if (index === BAND_SQUARED && k.still) value = k.bandSquared;
      else if (index === GAIN && k.filter === 1) value = k.gain;
      else if (index === BASE && k.filter > 1) value = k.base;
      else if (index === RISE && k.filter > 1) value = k.rise;
      else if (index === SPEED_GAIN && k.filter === 2) value = k.speedGain;
      else if (index === HALF && k.hold > 0) value = k.half;
      else if (index === WORD_GAIN) value = k.wordGain;
      else if (index === WORD_OFFSET) value = k.wordOffset;
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

/** Takes the present reading for the open end of a finger, or of all of them (slot 255). */
export function zero(p: Program, slot: number): boolean {
  let isDone = false;
  for (let i = 0; i < p.build.slots.length; i++) {
    if (slot === p.build.slots[i] || slot === 255) {
      const reading = p.io.sums[i]() / p.build.oversampling;
      const closed = p.io.ends[2 * p.build.slots[i] + 1];
      // an open end next to the closed one would be none
      if (reading - closed > LEAST_SPAN || closed - reading > LEAST_SPAN) {
        applyEnds(p, i, reading, closed);
        isDone = true;
      }
    }
  }
  if (isDone) putAll(p);
  return isDone;
}

/** Share of full scale that must lie between two ends. Assumed, as for a capture. */
const LEAST_SPAN = 0.1;

/** Writes the words of all fingers anew: resting ones would keep those of the old numbers. */
export function putAll(p: Program): void {
  for (let i = 0; i < p.build.places.length; i++) {
    putWord(p.io.words, p.build.places[i], p.fingers[i], p.constants[i]);
  }
}
