import { COUNT_MAX, STATUS_ERRORS, STATUS_LATE } from '../../protocol/frame.ts';
import { frame } from './frame.ts';
import { sendHealth } from './health-frame.ts';
import type { Program } from './program.ts';
import { sendRaw } from './raw-frame.ts';
import { isGap, isLate, isTickDue } from './tick-guard.ts';

/** One step of the frame timer. Never throws: an error is counted and told in the frames' status. */
export function tick(p: Program): void {
  const run = p.run;
  run.sequence = run.sequence + 1;
  const elapsedS = p.io.now() - run.startS - run.lastS;
  if (isTickDue(elapsedS, p.build.periodS)) {
    run.lastS = run.lastS + elapsedS;
    try {
      if (isGap(elapsedS, p.build.gapS)) run.isFresh = true;
      if (run.rawSlot < 0) {
        frame(p, isLate(elapsedS, p.build.periodS) ? run.status | STATUS_LATE : run.status);
      } else {
        sendRaw(p);
      }
    } catch (_error) {
      countError(p);
    }
    run.beat = run.beat + 1;
    if (run.beat >= p.build.healthFrames) tryHealth(p);
  }
}

/** The health frame has a guard of its own: it tells of the errors that keep all other frames from being made. */
export function tryHealth(p: Program): void {
  try {
    sendHealth(p);
  } catch (_error) {
    countError(p);
  }
}

/** Counts an error; a trace for every frame would fill the line. */
export function countError(p: Program): void {
  const run = p.run;
  run.status = run.status | STATUS_ERRORS;
  run.isFresh = true;
  if (run.errors < COUNT_MAX) run.errors = run.errors + 1;
}
