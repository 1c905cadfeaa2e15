import { writeJoystick, writeValue } from '../../protocol/encode.ts';
import { KIND_RAW, VALUE_COUNT } from '../../protocol/frame.ts';
import { sendOtherFrame } from './other-frame.ts';
import type { Program } from './program.ts';

/** Counts of a 12-bit reading of 1. */
const COUNTS = 4096;

/** Sends five readings of one channel, taken back to back, unfiltered. */
export function sendRaw(p: Program): void {
  const build = p.build;
  let pin = 0;
  for (let i = 0; i < build.slots.length; i++) {
    if (build.slots[i] === p.run.rawSlot) {
      if (build.channels.length > 0) p.io.select(build.channels[i]);
      pin = build.pins[i];
    }
  }
  if (build.dummyRead) p.io.read(pin);
  for (let n = 0; n < VALUE_COUNT; n++) writeValue(p.io.otherWords, n, p.io.read(pin) * COUNTS);
  writeJoystick(p.io.otherBytes, p.run.rawSlot, 0);
  sendOtherFrame(p, KIND_RAW);
}
