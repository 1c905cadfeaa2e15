import type { BoardId } from '../../../firmware/boards/board.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Potentiometer, Rig, Wiring } from '../../../sim/rig/rig.ts';
import type { Margin } from '../../../sim/sizing/margin.ts';

/** The default rig with every finger's wiring and potentiometer changed alike. */
export function rigWith(
  wiring: Partial<Wiring>,
  potentiometer: Partial<Potentiometer> = {},
  board: BoardId = 'esp32',
): Rig {
  const rig = defaultRig(board);
  for (const finger of rig.fingers) {
    Object.assign(finger.wiring, wiring);
    Object.assign(finger.potentiometer, potentiometer);
  }
  return rig;
}

/** Margins about something, by words of their text. */
export function marginsOn(margins: readonly Margin[], what: RegExp): Margin[] {
  return margins.filter((margin) => what.test(margin.what));
}
