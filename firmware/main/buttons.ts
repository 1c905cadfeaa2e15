import { packFlags, writeFlags } from '../../protocol/encode.ts';
import { KIND_HAND } from '../../protocol/frame.ts';
import { bounceCount, debounced } from './debounce.ts';
import type { Program } from './program.ts';

/** Reads the buttons; work is only done while one differs from its state. */
export function watchButtons(p: Program): void {
  const down = p.io.buttons() ^ ((1 << p.build.buttons) - 1);
  if (down !== p.buttons.pressed || p.buttons.isBouncing) debounceAll(p, down);
}

/** @param down what the pins say now, bits, 1 = pressed */
export function debounceAll(p: Program, down: number): void {
  const b = p.buttons;
  const steps = p.build.debounceSteps;
  b.isBouncing = false;
  for (let i = 0; i < p.build.buttons; i++) {
    const before = (b.pressed >> i) & 1;
    const count = bounceCount(b.counts[i], before, (down >> i) & 1, steps);
    b.counts[i] = count;
    if (count > 0) b.isBouncing = true;
    b.pressed = b.pressed ^ ((before ^ debounced(before, count, steps)) << i);
  }
  writeFlags(p.io.bytes, packFlags(b.pressed, p.build.rightHand, KIND_HAND));
}
