import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { FINGER_NAMES, type FingerName } from '../../../sim/rig/rig.ts';
import { type PinPlan, proposePins } from '../../../sim/sizing/pins/pin-plan.ts';
import { givenOf, NOTHING_GIVEN, type WantedPins, wantedOf } from '../../../sim/sizing/pins/wanted-pins.ts';

const STRINGS: WantedPins = {
  fingers: [...FINGER_NAMES],
  joystick: false,
  rail: false,
  battery: false,
  serialOut: false,
  servos: 0,
  buttons: 0,
};

function pinsOf(plan: PinPlan | undefined): Record<string, number> {
  return Object.fromEntries(plan!.pins.map(({ key, pin }) => [key, pin]));
}

function onPins(...pins: number[]): { pins: { [name in FingerName]?: number }; channels: object } {
  return { pins: Object.fromEntries(FINGER_NAMES.map((name, i) => [name, pins[i]])), channels: {} };
}

describe('a pin plan', () => {
  // 32-35 have no dips (espressif/esp-idf#1096 names 36 and 39), so they come first
  it('gives five strings on the original chip 32 to 36', () => {
    const { plan } = proposePins('esp32', STRINGS);
    expect(pinsOf(plan)).toEqual({ thumb: 32, index: 33, middle: 34, ring: 35, little: 36 });
    expect(plan!.hasMultiplexer).toBe(false);
  });

  it('takes a multiplexer for five strings, a joystick and the rail, and says why', () => {
    const { plan } = proposePins('esp32', { ...STRINGS, joystick: true, rail: true });
    expect(plan!.hasMultiplexer).toBe(true);
    expect(plan!.multiplexerReason).toMatch(/^8 voltages .* 6 good ADC1 pins: 32, 33, 34, 35, 36, 39$/);
    expect(plan!.channels).toEqual({ thumb: 0, index: 1, middle: 2, ring: 3, little: 4 });
    expect(pinsOf(plan)).toEqual({
      signal: 32,
      'joystick x': 33,
      'joystick y': 34,
      rail: 35,
      'select 0': 18,
      'select 1': 19,
      'select 2': 21,
    });
  });

  it('takes one for five strings on a C3, whose fifth ADC1 pin is a strapping pin', () => {
    expect(
      proposePins('esp32-c3', { ...STRINGS, fingers: STRINGS.fingers.slice(0, 4) }).plan!.pins,
    ).toHaveLength(4);
    const { plan } = proposePins('esp32-c3', STRINGS);
    expect(plan!.multiplexerReason).toMatch(/^5 voltages .* 4 good ADC1 pins: 0, 1, 3, 4$/);
  });

  it('is refused with a reason and a cure when not even the multiplexer helps', () => {
    const { problem } = proposePins('esp32-c3', { ...STRINGS, joystick: true, rail: true, battery: true });
    expect(problem!.seen).toMatch(/even with a multiplexer 5 voltages .* 4 good ones: 0, 1, 3, 4/);
    expect(problem!.cure).toMatch(/board: esp32/);
    const many = proposePins('esp32-c3', { ...STRINGS, servos: 5, buttons: 4 });
    expect(many.problem!.seen).toMatch(/^13 wires need a pin .* has 8 good ones$/);
  });

  it('keeps what a rig has where nothing is wrong with it, and moves the rest', () => {
    const { plan } = proposePins(
      'esp32',
      { ...STRINGS, rail: true, buttons: 2 },
      {
        pins: { ...onPins(35, 27, 33, 34, 32).pins, rail: 39, 'button 1': 23, 'button 2': 0 },
        channels: {},
      },
    );
    expect(pinsOf(plan)).toMatchObject({ thumb: 35, index: 36, middle: 33, ring: 34, little: 32, rail: 39 });
    expect(plan!.pins.filter(({ movedFrom }) => movedFrom !== undefined)).toEqual([
      { key: 'index', role: 'analog', pin: 36, movedFrom: 27 },
      { key: 'button 2', role: 'button', pin: 18, movedFrom: 0 },
    ]);
  });

  it('leaves a pin that dips for a better one, but not for one that dips as well', () => {
    const two = { ...STRINGS, fingers: ['thumb', 'index'] satisfies FingerName[] };
    expect(pinsOf(proposePins('esp32', two, onPins(39, 33)).plan)).toEqual({ thumb: 32, index: 33 });
    expect(pinsOf(proposePins('esp32', STRINGS, onPins(32, 33, 34, 35, 39)).plan)).toMatchObject({
      little: 39,
    });
  });

  it('takes a button off an ADC1 pin before it buys a multiplexer', () => {
    const wanted = { ...STRINGS, rail: true, buttons: 1 };
    const { plan } = proposePins('esp32', wanted, { pins: { 'button 1': 33 }, channels: {} });
    expect(plan!.hasMultiplexer).toBe(false);
    expect(pinsOf(plan)).toMatchObject({ index: 33, rail: 39, 'button 1': 18 });
  });

  it('keeps a multiplexer that the rig has, and strings beside it where they are', () => {
    const rig = defaultRig('esp32');
    rig.fingers.forEach((finger, i) => {
      if (i > 0) Object.assign(finger, { pin: 32, channel: 7 - i });
      else finger.pin = 35;
    });
    rig.multiplexer = { signalPin: 32, selectPins: [23, 22, 21] };
    const { plan } = proposePins('esp32', wantedOf(rig), givenOf(rig));
    expect(plan!.channels).toEqual({ index: 6, middle: 5, ring: 4, little: 3 });
    expect(pinsOf(plan)).toEqual({ signal: 32, thumb: 35, 'select 0': 23, 'select 1': 22, 'select 2': 21 });
    expect(plan!.multiplexerReason).toBeUndefined();
  });

  it('keeps servos off the converter’s pins and off those that pulse while the chip starts', () => {
    const { plan } = proposePins(
      'esp32',
      { ...STRINGS, servos: 5, buttons: 4, serialOut: true },
      NOTHING_GIVEN,
    );
    const servos = plan!.pins.filter(({ role }) => role === 'drive').map(({ pin }) => pin);
    expect(servos).toHaveLength(5);
    for (const pin of [25, 26, 14, 0, 1, 3, 5, 15]) expect(servos).not.toContain(pin);
  });
});
