import type { Rig } from '../../rig/rig.ts';

/**
 * What a pin is used for.
 * - `analog`: it is read as a voltage
 * - `select`: it drives a line of the multiplexer
 * - `transmit`: a serial port sends on it
 * - `drive`: it drives a brake's servo
 * - `button`: it is read as a level, with its own pull-up
 * - `receive`: a serial port listens on it, whether anything is wired there or not; the rig file does not choose it
 */
export type PinRole = 'analog' | 'select' | 'transmit' | 'drive' | 'button' | 'receive';

/** Input that the interpreter gives its second serial port when none is named (read in espruino/Espruino c5ff787). */
export const SECOND_PORT_INPUT = 5;

export interface PinUse {
  /** Place in the rig file, key by key. */
  path: readonly (string | number)[];
  /** The path in words. */
  label: string;
  pin: number;
  role: PinRole;
  /** What owns the pin, for messages about others that want it too. */
  owner: string;
}

/** All pins of a rig, in the order in which they are given away. */
export function pinUses(rig: Rig): PinUse[] {
  const uses: PinUse[] = [];
  const add = (role: PinRole, path: readonly (string | number)[], pin: number, owner: string) => {
    const label = path.map((step) => (typeof step === 'number' ? `[${step}]` : `.${step}`)).join('');
    uses.push({ role, path, pin, owner, label: label.slice(1) });
  };
  // First, since nothing can be done about it: whatever else is wired there has to move.
  if (rig.frameLink) {
    add(
      'receive',
      ['frameLink'],
      SECOND_PORT_INPUT,
      'the second serial port’s input, which the interpreter takes',
    );
  }
  for (const { name, pin, channel } of rig.fingers) {
    if (channel === undefined) add('analog', ['fingers', name, 'pin'], pin, `the ${name} finger`);
  }
  if (rig.multiplexer) {
    add('analog', ['multiplexer', 'signal'], rig.multiplexer.signalPin, 'the multiplexer’s signal');
    rig.multiplexer.selectPins.forEach((pin, line) => {
      add('select', ['multiplexer', 'select', line], pin, `the multiplexer’s select line ${line}`);
    });
  }
  if (rig.joystick) {
    add('analog', ['joystick', 'x'], rig.joystick.xPin, 'the joystick’s x axis');
    add('analog', ['joystick', 'y'], rig.joystick.yPin, 'the joystick’s y axis');
  }
  if (rig.rail) add('analog', ['rail', 'pin'], rig.rail.pin, 'the rail');
  if (rig.frameLink) add('transmit', ['frameLink', 'tx'], rig.frameLink.txPin, 'the second serial port');
  rig.brakes?.pins.forEach((pin, index) => {
    add('drive', ['brakes', 'pins', index], pin, `brake ${index + 1}`);
  });
  rig.buttons?.forEach((pin, index) => {
    add('button', ['buttons', index], pin, `button ${index + 1}`);
  });
  return uses;
}
