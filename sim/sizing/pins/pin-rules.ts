import type { BoardFacts } from '../../../firmware/boards/facts.ts';
import type { PinRole } from './pin-uses.ts';

/** What is wrong with a pin in a role. */
export interface PinFault {
  /** Whether it can never work, or only has its dangers. */
  isError: boolean;
  /** Goes on after "… is 4". */
  seen: string;
  expected: string;
  /** Why, in one clause; may be empty. */
  why: string;
}

function error(seen: string, expected: string, why = ''): PinFault {
  return { isError: true, seen, expected, why };
}

function analogFault(facts: BoardFacts, pin: number): PinFault | undefined {
  const usable = [...facts.adc1Pins].sort((a, b) => a - b);
  const expected = `an ADC1 pin of the ${facts.label}: ${usable.join(', ')}`;
  if (!usable.includes(pin)) {
    const alias = facts.aliasedPins[pin];
    if (alias !== undefined) {
      return error(
        ', on ADC2, which belongs to the radio',
        expected,
        `the interpreter would read GPIO${alias} in its place`,
      );
    }
    if (facts.adc2Pins.includes(pin)) return error(', on ADC2, which belongs to the radio', expected);
    return facts.flashPins.includes(pin)
      ? error(', a line of the flash memory', expected)
      : error('', expected);
  }
  if (!facts.strappingPins.includes(pin)) return undefined;
  return {
    isError: false,
    seen: ', a strapping pin',
    expected: 'a pin whose level at reset does not matter',
    why: `GPIO${pin} ${facts.pinNotes[pin] ?? 'decides how the chip starts'}`,
  };
}

const PURPOSES = {
  select: 'a select line',
  transmit: 'a serial output',
  drive: 'a servo',
  button: 'a button',
};

function digitalFault(facts: BoardFacts, pin: number, role: keyof typeof PURPOSES): PinFault | undefined {
  const purpose = PURPOSES[role];
  const expected = `a free pin for ${purpose}: ${facts.digitalPins.join(', ')}`;
  if (facts.flashPins.includes(pin)) {
    return error(', a line of the flash memory', expected, 'the board would not start');
  }
  if (facts.consolePins.includes(pin)) {
    return error(', a line of the console', expected, 'the host could not talk to the board any more');
  }
  if (facts.inputOnlyPins.includes(pin)) {
    return role !== 'button'
      ? error(', which can only be an input', expected, 'it has no driver')
      : {
          isError: false,
          seen: ', which has no pull-up',
          expected,
          why: `GPIO${pin} needs a resistor of 10 kΩ to 3.3 V`,
        };
  }
  if (facts.strappingPins.includes(pin)) {
    const load = role !== 'button' ? 'what hangs on it' : 'the button held down';
    return {
      isError: false,
      seen: ', a strapping pin',
      expected,
      why: `${load} at reset can keep the board from starting: GPIO${pin} ${facts.pinNotes[pin] ?? 'decides how the chip starts'}`,
    };
  }
  if (facts.usbPins.includes(pin)) {
    return { isError: false, seen: ', a line of the USB port', expected, why: 'the port stops working' };
  }
  if (role === 'drive' && facts.dacPins.includes(pin)) {
    return {
      isError: false,
      seen: ', a pin of the digital-to-analog converter',
      expected,
      why: 'analogWrite gives a voltage there, no pulses',
    };
  }
  if (role === 'drive' && facts.restlessPins.includes(pin)) {
    return {
      isError: false,
      seen: ', which sends pulses of its own while the board starts',
      expected,
      why: 'a servo there can move before any program runs',
    };
  }
  if (!facts.digitalPins.includes(pin) && !facts.adc1Pins.includes(pin) && !facts.adc2Pins.includes(pin)) {
    return {
      isError: false,
      seen: ', which is not known to be brought out of the module',
      expected,
      why: `look for GPIO${pin} on your board`,
    };
  }
  return undefined;
}

/** What is wrong with a pin in a role on a board; undefined if nothing. */
export function pinFault(facts: BoardFacts, pin: number, role: PinRole): PinFault | undefined {
  if (role === 'receive') return undefined;
  return role === 'analog' ? analogFault(facts, pin) : digitalFault(facts, pin, role);
}

/** The best pin for a role that nothing of the rig has; undefined if none is left. */
export function freePin(facts: BoardFacts, role: PinRole, taken: ReadonlySet<number>): number | undefined {
  const pins = role === 'analog' ? facts.adc1Pins : facts.digitalPins;
  return pins.find((pin) => !taken.has(pin) && isGood(facts, pin, role));
}

/** Whether nothing at all is to be said against a pin in a role. */
export function isGood(facts: BoardFacts, pin: number, role: PinRole): boolean {
  return pinFault(facts, pin, role) === undefined && !facts.strappingPins.includes(pin);
}
