/** The functions behind {@link import('./hand-routines.ts').HandRoutines}; the program comes first. */
import { SUBJECT_ALL } from '../../protocol/commands.ts';
import { packFlags, writeFlags, writeJoystick } from '../../protocol/encode.ts';
import {
  INVALID_VALUE,
  KIND_HAND,
  KIND_REPLY,
  STATUS_UNCALIBRATED,
  SYNC_AT,
  SYNC_BYTE,
  VALUE_COUNT,
} from '../../protocol/frame.ts';
import { acquire } from './acquire.ts';
import { putAll } from './hand.ts';
import { applyEnds } from './live-numbers.ts';
import { sendOtherFrame } from './other-frame.ts';
import type { Program } from './program.ts';
import { writeReplyValues } from './reply.ts';

export function counter(p: Program, which: number): number {
  if (which === 0) return 0;
  if (which === 1) return p.run.errors;
  return NaN;
}

export function raw(p: Program, slot: number): boolean {
  let isWired = false;
  if (slot === SUBJECT_ALL) {
    p.run.rawSlot = -1;
    p.run.isFresh = true;
    isWired = true;
  } else {
    for (let i = 0; i < p.build.slots.length; i++) {
      if (slot === p.build.slots[i]) {
        p.run.rawSlot = slot;
        isWired = true;
      }
    }
  }
  return isWired;
}

export function isCapturing(p: Program): boolean {
  return p.run.isCapturing;
}

export function takeEnds(p: Program, slot: number, open: number, closed: number): void {
  for (let i = 0; i < p.build.slots.length; i++) {
    if (slot === p.build.slots[i]) applyEnds(p, i, open, closed);
  }
  putAll(p);
}

export function captured(p: Program): number {
  return p.run.captured;
}

export function ends(p: Program): Float32Array {
  return p.io.ends;
}

/** @param captured bits of the fingers whose ends are stored */
export function markStored(p: Program, captured: number): void {
  p.run.status =
    (captured & p.build.wired) === p.build.wired
      ? p.run.status & ~STATUS_UNCALIBRATED
      : p.run.status | STATUS_UNCALIBRATED;
}

export function begin(p: Program): void {
  const io = p.io;
  p.run.startS = io.now();
  p.run.lastS = -p.build.periodS;
  p.run.isFresh = true;
  io.bytes[SYNC_AT] = SYNC_BYTE;
  io.otherBytes[SYNC_AT] = SYNC_BYTE;
  for (let i = 0; i < VALUE_COUNT; i++) io.words[p.build.firstPlace + i] = INVALID_VALUE;
  writeFlags(io.bytes, packFlags(0, p.build.rightHand, KIND_HAND));
  writeJoystick(io.bytes, 128, 128);
  // the first readings after power up tell nothing yet
  acquire(p);
}

export function refresh(p: Program): void {
  p.run.isFresh = true;
  // what has passed until now is no delay
  p.run.lastS = p.io.now() - p.run.startS;
}

export function reply(p: Program, command: number, result: number, answer: number, tag: number): void {
  p.run.sequence = p.run.sequence + 1;
  writeReplyValues(p.io.otherWords, command, result, answer, tag);
  writeJoystick(p.io.otherBytes, 0, 0);
  sendOtherFrame(p, KIND_REPLY);
}
