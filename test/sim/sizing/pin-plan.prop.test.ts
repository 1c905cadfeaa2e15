import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../firmware/boards/board.ts';
import { type PinPlan, proposePins } from '../../../sim/sizing/pins/pin-plan.ts';
import type { GivenPins, WantedPins } from '../../../sim/sizing/pins/wanted-pins.ts';
import { anyGiven, anyWanted } from './any-pins.ts';

const RUNS = { numRuns: process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300 };

/** By hand from the data sheets of the chips: strapping, flash, USB and console; then inputs of ADC1; then no driver. */
const SHEET = {
  esp32: {
    never: [0, 2, 5, 12, 15, 6, 7, 8, 9, 10, 11, 1, 3],
    adc1: [32, 33, 34, 35, 36, 37, 38, 39],
    inputOnly: [34, 35, 36, 37, 38, 39],
    dac: [25, 26],
  },
  'esp32-s3': {
    never: [0, 3, 45, 46, 26, 27, 28, 29, 30, 31, 32, 19, 20, 43, 44],
    adc1: [1, 2, 4, 5, 6, 7, 8, 9, 10],
    inputOnly: [],
    dac: [],
  },
  'esp32-c3': {
    never: [2, 8, 9, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21],
    adc1: [0, 1, 3, 4],
    inputOnly: [],
    dac: [],
  },
};

function problemsOf(plan: PinPlan, wanted: WantedPins): string[] {
  const sheet = SHEET[plan.board];
  const problems: string[] = [];
  const taken = new Set<number>(wanted.serialOut ? [5] : []);
  for (const { key, role, pin } of plan.pins) {
    const say = (what: string) => problems.push(`${key} on ${pin}: ${what}`);
    if (taken.has(pin)) say('taken');
    taken.add(pin);
    if (sheet.never.includes(pin)) say('never');
    if (role === 'analog' ? !sheet.adc1.includes(pin) : (sheet.inputOnly as number[]).includes(pin))
      say(role);
    if (role === 'drive' && (sheet.dac as number[]).includes(pin)) say('converter');
  }
  return problems;
}

/** Everything wanted has a place: a pin, or an input of the multiplexer of its own. */
function wiresOfPlan(plan: PinPlan): string[] {
  return [...plan.pins.map(({ key }) => key), ...Object.keys(plan.channels)].sort();
}

function expectedWires(wanted: WantedPins, hasMultiplexer: boolean): string[] {
  const wires: string[] = [...wanted.fingers];
  if (hasMultiplexer) wires.push('signal', 'select 0', 'select 1', 'select 2');
  if (wanted.joystick) wires.push('joystick x', 'joystick y');
  if (wanted.rail) wires.push('rail');
  if (wanted.battery) wires.push('battery');
  if (wanted.serialOut) wires.push('serial output');
  for (let n = 1; n <= wanted.servos; n++) wires.push(`servo ${n}`);
  for (let n = 1; n <= wanted.buttons; n++) wires.push(`button ${n}`);
  return wires.sort();
}

describe('any proposed plan', () => {
  it('uses no forbidden pin and none twice, and has a place for every wire', () => {
    const board = fc.constantFrom(...BOARD_IDS);
    fc.assert(
      fc.property(board, anyWanted, fc.option(anyGiven, { nil: undefined }), (id, wanted, given) => {
        const { plan, problem } = proposePins(id, wanted, given);
        if (!plan) {
          expect(problem.cure).not.toBe('');
          return;
        }
        expect(problemsOf(plan, wanted)).toEqual([]);
        expect(wiresOfPlan(plan)).toEqual(expectedWires(wanted, plan.hasMultiplexer));
        const inputs = Object.values(plan.channels);
        expect(new Set(inputs).size).toBe(inputs.length);
        expect(inputs.every((input) => input >= 0 && input <= 7)).toBe(true);
        if (!plan.hasMultiplexer) expect(inputs).toEqual([]);
      }),
      RUNS,
    );
  });

  // six good ADC1 pins for at most five voltages beside the multiplexer, 13 output pins for at most 13 wires
  it('exists for every wanted set on the original chip, whatever the rig has wired', () => {
    fc.assert(
      fc.property(anyWanted, fc.option(anyGiven, { nil: undefined }), (wanted, given) => {
        expect(proposePins('esp32', wanted, given).problem).toBeUndefined();
      }),
      RUNS,
    );
  });

  it('leaves a rig alone that is wired after it', () => {
    const board = fc.constantFrom(...BOARD_IDS);
    fc.assert(
      fc.property(board, anyWanted, (id, wanted) => {
        const { plan } = proposePins(id, wanted);
        if (!plan) return;
        const given: GivenPins = { pins: {}, channels: plan.channels };
        for (const { key, pin } of plan.pins) given.pins[key] = pin;
        const { multiplexerReason: _, ...same } = plan;
        expect(proposePins(id, wanted, given).plan).toEqual(same);
      }),
      RUNS,
    );
  });
});
