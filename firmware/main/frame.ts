import { writeCheckOf, writeHeader, writeStatus } from '../../protocol/encode.ts';
import { TIME_STEPS_PER_SECOND } from '../../protocol/frame.ts';
import { acquire } from './acquire.ts';
import { writeAxes } from './axes.ts';
import { watchButtons } from './buttons.ts';
import { captureHand } from './capture-hand.ts';
import { restartHand, stepHand } from './hand.ts';
import type { Program } from './program.ts';
import { railFactorNow } from './rail.ts';
import { isOpenFrom, maskFaults, watchFrozen } from './wiper-watch.ts';

/**
 * Reads, filters, packs and sends one hand frame.
 * @param status bits for this frame
 */
export function frame(p: Program, status: number): void {
  const io = p.io;
  acquire(p);
  if (p.build.buttons > 0) watchButtons(p);
  const factor = railFactorNow(p);
  if (p.run.isFresh) restartHand(p, factor);
  else stepHand(p, factor);
  if (p.build.watched) {
    // not in every frame: it costs a third of one
    if ((p.run.sequence & 7) === 0) watchFrozen(p, factor);
    if (p.run.frozen || isOpenFrom(p, 0)) maskFaults(p);
  }
  if (p.run.isCapturing) captureHand(p);
  if (p.build.axes.length > 0) writeAxes(p);
  writeStatus(io.bytes, status);
  writeHeader(io.bytes, io.words, p.run.sequence, (io.now() - p.run.startS) * TIME_STEPS_PER_SECOND);
  writeCheckOf(io.words, io.crc());
  io.send();
}
