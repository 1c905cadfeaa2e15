import { JOYSTICK_X_AT } from '../../protocol/frame.ts';
import { axisByte } from './joystick.ts';
import type { Program } from './program.ts';

/** Share of full scale round the centre that still is the centre. Assumed: about the play of a small stick. */
const DEAD = 0.02;
/** Largest reading of a 12-bit converter. */
const FULL_SCALE = 4095 / 4096;

/** Writes the joystick's bytes of the hand frame. */
export function writeAxes(p: Program): void {
  for (let i = 0; i < p.build.axes.length; i++) {
    const reading = p.io.readings[p.build.axes[i]];
    p.io.bytes[JOYSTICK_X_AT + i] = axisByte(reading, 0, p.centres[i], FULL_SCALE, DEAD);
  }
}

/** Takes the present position of the stick for its centre, unless it is far from the middle: then the middle. */
export function centreAxes(p: Program): void {
  for (let i = 0; i < p.build.axes.length; i++) {
    const reading = p.io.readings[p.build.axes[i]];
    p.centres[i] = reading > 0.35 && reading < 0.65 ? reading : 0.5;
  }
}
