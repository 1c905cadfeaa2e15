import fc from 'fast-check';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';
import type { GivenPins, WantedPins, WireKey } from '../../../sim/sizing/pins/wanted-pins.ts';

/** Any set of wires that a rig can want, and one more for the cell. */
export const anyWanted: fc.Arbitrary<WantedPins> = fc.record({
  fingers: fc
    .subarray([...FINGER_NAMES], { minLength: 1 })
    .map((names) => FINGER_NAMES.filter((name) => names.includes(name))),
  joystick: fc.boolean(),
  rail: fc.boolean(),
  battery: fc.boolean(),
  serialOut: fc.boolean(),
  servos: fc.nat(5),
  buttons: fc.nat(4),
});

const KEYS: WireKey[] = [
  ...FINGER_NAMES,
  'joystick x',
  'joystick y',
  'rail',
  'battery',
  'serial output',
  ...([1, 2, 3, 4, 5] as const).map((n): WireKey => `servo ${n}`),
  ...([1, 2, 3, 4] as const).map((n): WireKey => `button ${n}`),
];
const pin = fc.nat(48);

/** Pins that a rig may name, right or wrong; a multiplexer with all of its pins or none. */
export const anyGiven: fc.Arbitrary<GivenPins> = fc
  .record({
    pins: fc.dictionary(fc.constantFrom(...KEYS), pin, { maxKeys: KEYS.length }),
    multiplexer: fc.option(
      fc.record({
        pins: fc.record({ signal: pin, 'select 0': pin, 'select 1': pin, 'select 2': pin }),
        channels: fc.dictionary(fc.constantFrom(...FINGER_NAMES), fc.nat(7)),
      }),
      { nil: undefined },
    ),
  })
  .map(({ pins, multiplexer }) => {
    const given: GivenPins = {
      pins: { ...pins, ...multiplexer?.pins },
      channels: multiplexer?.channels ?? {},
    };
    for (const name of FINGER_NAMES) if (given.channels[name] !== undefined) delete given.pins[name];
    return given;
  });
