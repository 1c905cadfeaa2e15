import type { BoardFacts } from '../../../firmware/boards/facts.ts';
import type { PinFault } from './pin-rules.ts';
import type { PinRole } from './pin-uses.ts';

/**
 * - `radio`: on ADC2, which the radio owns
 * - `strapping`: its level at reset changes how the chip starts
 * - `flash`, `usb`, `console`: the chip needs it itself
 * - `input-only`: no output driver, no pull-up
 * - `boot level`: it is not still while the chip starts
 * - `converter`: no pulses come out
 * - `no analog input`, `not brought out`, `taken`: what they say
 * - `dips`: pulled low for moments by the chip itself
 */
export type ConflictKind =
  | 'radio'
  | 'strapping'
  | 'flash'
  | 'usb'
  | 'console'
  | 'input-only'
  | 'boot level'
  | 'converter'
  | 'no analog input'
  | 'not brought out'
  | 'taken'
  | 'dips';

/** What kind of fault a pin has in a role; the same order as the rules in pin-rules.ts. */
export function kindOf(facts: BoardFacts, pin: number, role: PinRole): ConflictKind {
  if (facts.flashPins.includes(pin)) return 'flash';
  if (role === 'analog') {
    if (facts.adc2Pins.includes(pin)) return 'radio';
    return facts.adc1Pins.includes(pin) ? 'strapping' : 'no analog input';
  }
  if (facts.consolePins.includes(pin)) return 'console';
  if (facts.inputOnlyPins.includes(pin)) return 'input-only';
  if (facts.strappingPins.includes(pin)) return 'strapping';
  if (facts.usbPins.includes(pin)) return 'usb';
  if (role === 'drive' && facts.dacPins.includes(pin)) return 'converter';
  if (role === 'drive' && facts.restlessPins.includes(pin)) return 'boot level';
  return 'not brought out';
}

/** Why it matters, in one clause; longer than the one of the rig file's messages. */
export function reasonOf(facts: BoardFacts, pin: number, kind: ConflictKind, fault: PinFault): string {
  if (kind === 'radio') {
    const alias = facts.aliasedPins[pin];
    const read = alias === undefined ? 'the interpreter cannot read it' : fault.why;
    return `${read}, and ADC2 reads 4095 once Wi-Fi is on (espressif/arduino-esp32#440)`;
  }
  if (kind === 'no analog input') return 'the interpreter reads no voltage there';
  return fault.why;
}
