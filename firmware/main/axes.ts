import { JOYSTICK_X_AT } from '../../protocol/frame.ts';
import type { Program } from './program.ts';

/** Steps of an axis byte over the whole of a reading. */
const STEPS = 256;

/**
 * Writes the joystick's bytes of the hand frame: readings as they are, cut to 8 bits. Centre, ends and dead zone of a
 * stick are the host's work, which has time for it.
 */
export function writeAxes(p: Program): void {
  for (let i = 0; i < p.build.axes.length; i++) {
    p.io.bytes[JOYSTICK_X_AT + i] = p.io.readings[p.build.axes[i]] * STEPS;
  }
}
