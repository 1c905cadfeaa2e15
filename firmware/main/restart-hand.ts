import { startHand } from '../chain/hand.ts';
import type { Program } from './program.ts';

/** The first frame, and the first after a gap: every finger takes its reading as it is. */
export function restartHand(p: Program, factor: number): void {
  startHand(p, p.io.sums, p.build.railNominal > 0, factor, p.io.words, p.build.places);
  p.run.isFresh = false;
}
