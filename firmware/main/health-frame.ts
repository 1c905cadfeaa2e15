import { writeJoystick, writeValue } from '../../protocol/encode.ts';
import { INVALID_VALUE, KIND_HEALTH, PROTOCOL_VERSION } from '../../protocol/frame.ts';
import { sendOtherFrame } from './other-frame.ts';
import type { Program } from './program.ts';

/** Sends a health frame behind the frame of this step, under a number of its own. */
export function sendHealth(p: Program): void {
  const build = p.build;
  const io = p.io;
  const run = p.run;
  run.beat = 0;
  run.sequence = run.sequence + 1;
  writeValue(io.otherWords, 0, supplyMv(p));
  writeValue(io.otherWords, 1, INVALID_VALUE);
  writeValue(io.otherWords, 2, 0);
  writeValue(io.otherWords, 3, run.errors);
  writeValue(io.otherWords, 4, PROTOCOL_VERSION * 256 + build.programId);
  writeJoystick(io.otherBytes, build.frameRateHz, 0);
  sendOtherFrame(p, KIND_HEALTH);
}

/** Supply from the rail's readings of the last frame, mV; invalid while there is no whole frame behind. */
function supplyMv(p: Program): number {
  const build = p.build;
  if (build.railNominal > 0 && !p.run.isFresh) {
    return (p.io.railSum() / build.oversampling / build.railNominal) * build.railMv;
  }
  return INVALID_VALUE;
}
