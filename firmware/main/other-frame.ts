import { packFlags, writeCheckOf, writeFlags, writeHeader, writeStatus } from '../../protocol/encode.ts';
import { TIME_STEPS_PER_SECOND } from '../../protocol/frame.ts';
import type { Program } from './program.ts';

/**
 * Completes and sends a frame that is no hand frame. Its values and the two bytes behind them are written already.
 * @param kind one of the KIND constants
 */
export function sendOtherFrame(p: Program, kind: number): void {
  const io = p.io;
  writeFlags(io.otherBytes, packFlags(p.buttons.pressed, p.build.rightHand, kind));
  writeStatus(io.otherBytes, p.run.status);
  writeHeader(
    io.otherBytes,
    io.otherWords,
    p.run.sequence,
    (io.now() - p.run.startS) * TIME_STEPS_PER_SECOND,
  );
  writeCheckOf(io.otherWords, io.crc32(io.otherChecked));
  io.write(io.otherBytes);
  // the console has them all the same: whoever loads or commands the board listens there
  if (p.build.hasLink) io.writeLink(io.otherBytes);
}
