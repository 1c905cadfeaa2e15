import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Brakes, Rig } from '../../../sim/rig/rig.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { brakePlan } from '../../../sim/sizing/power/brake-plan.ts';
import { chargeMA } from '../../../sim/sizing/power/cell-care.ts';
import { bufferF, cellCurrentMA, hoursOnCell, potentiometersMA } from '../../../sim/sizing/power/power.ts';
import { sizePower } from '../../../sim/sizing/power/power-size.ts';
import { marginsOn, rigWith } from './rigs.ts';

const SAFE: Brakes = {
  pins: [25, 26, 27, 18, 19],
  stallA: 0.65,
  supply: 'own',
  supplyA: 4,
  capacitorF: 1000e-6,
  clutchN: 10,
  hasCutOff: true,
};
const withBrakes = (brakes: Brakes): Rig => ({ ...defaultRig(), brakes });

describe('current', () => {
  it('of five potentiometers of 10 k is 1.65 mA, and 0.99 mA behind 5.6 k and 1 k', () => {
    // 5·3.3 V/10 k; 5·3.3 V/16.6 k
    expect(potentiometersMA(rigWith({ topOhm: 0, bottomOhm: 0 }))).toBeCloseTo(1.65, 9);
    expect(potentiometersMA(rigWith({}))).toBeCloseTo(0.99, 2);
  });

  it('of the board is what the ESP32 datasheet names, with the potentiometers on top', () => {
    const { modes, potentiometersMA: potsMA } = sizePower(defaultRig());
    const board = Object.fromEntries(modes.map(({ id, loadMA }) => [id, loadMA - potsMA]));
    expect(board.radioOff).toBeCloseTo(68, 9); // 30-68 mA at 240 MHz
    expect(board.bluetooth).toBeCloseTo(130, 9); // 0 dBm
    expect(board.wifi).toBeCloseTo(240, 9); // 802.11b
    expect(board.lightSleep).toBeCloseTo(0.8, 9);
    expect(board.deepSleep).toBeCloseTo(0.01, 9); // timer and RTC memory
  });

  it('of a rail divider and a joystick is counted where there is one', () => {
    const rig = { ...defaultRig(), rail: { pin: 39, divider: 0.5 }, joystick: { xPin: 37, yPin: 38 } };
    const { railMA, joystickMA, modes } = sizePower(rig);
    expect(railMA).toBeCloseTo(3.3 / 20, 9); // two of 10 k
    // two of 10 k side by side between 2.7 k and 470 ohm: 3.3 V over 8.17 k
    expect(joystickMA).toBeCloseTo(3.3 / 8.17, 3);
    const plain = sizePower(defaultRig()).modes;
    expect(modes[0]!.loadMA - plain[0]!.loadMA).toBeCloseTo(3.3 / 20 + 3.3 / 8.17, 3);
  });

  it('from the cell through a switching regulator is 99.1 mA for 100', () => {
    expect(cellCurrentMA(100, 3.3, 3.7, 0.9)).toBeCloseTo(99.1, 1);
  });
});

describe('time on a cell', () => {
  it('is capacity·0.85/current in each mode, on the rig’s own cell', () => {
    expect(hoursOnCell(500, 0.85, 100)).toBeCloseTo(4.25, 9);
    expect(hoursOnCell(500, 0.85, 60)).toBeCloseTo(7.08, 2);
    const { cell, modes } = sizePower({ ...defaultRig(), cell: { capacityMAh: 1000 } });
    expect(cell).toEqual({ capacityMAh: 1000, maxA: 1, isStated: true });
    for (const { hours, loadMA, buckHours, buckMA } of modes) {
      expect(hours * loadMA).toBeCloseTo(850, 6);
      expect(buckHours * buckMA).toBeCloseTo(850, 6);
    }
  });

  it('is told for 500 mAh where the rig names no cell, and no current is judged then', () => {
    const size = sizePower(defaultRig());
    expect(size.cell).toEqual({ capacityMAh: 500, maxA: 0.5, isStated: false });
    expect(marginsOn(size.margins, /current from the cell/)).toEqual([]);
  });

  it('is no question with a cell too small for the radio: 241 mA of 200', () => {
    const rig = { ...defaultRig(), cell: { capacityMAh: 200 } };
    const [margin] = marginsOn(sizePower(rig).margins, /current from the cell/);
    expect(margin!.ratio).toBeCloseTo(200 / 240.994, 5);
    expect(verdictOf(margin!)).toBe('no');
    const [allowed] = marginsOn(
      sizePower({ ...rig, cell: { capacityMAh: 200, maxA: 0.4 } }).margins,
      /current from the cell/,
    );
    expect(verdictOf(allowed!)).toBe('ok');
  });
});

describe('charging', () => {
  it('takes at most 1C, kinder 0.5C, to 4.20 V between 0 and 45 deg; 3.0 V is the end, 2.75 V the very end', () => {
    // makers' guides to lithium polymer cells
    expect(chargeMA(500)).toEqual({ most: 500, kinder: 250 });
    expect(sizePower(defaultRig()).charge).toMatchObject({
      chargeTo: '4.20 V ± 0.05 V',
      chargeBetween: '0 and 45 °C',
      cutOffV: 3,
      neverBelowV: 2.75,
      storeBetween: '3.6 to 3.9 V',
    });
  });

  it('comes with its cautions', () => {
    const text = sizePower(defaultRig()).cautions.join(' ');
    expect(text).toMatch(/protected cells.*certified charger.*worn.*puncture, heat.*solder.*Local rules/);
  });
});

describe('the start of the radio', () => {
  it('asks for I·t/dV: 1 A for 1 ms at 1 V is 1000 uF; here 172 mA, 100 us, 0.2 V, so 100 uF of E6', () => {
    expect(bufferF(1, 1e-3, 1)).toBeCloseTo(1000e-6, 12);
    const { brownOut } = sizePower(defaultRig());
    expect(brownOut.stepA).toBeCloseTo(0.172, 9); // 240 - 68 mA
    expect(bufferF(0.172, 100e-6, 0.2)).toBeCloseTo(86e-6, 9);
    expect(brownOut.capacitorF).toBe(100e-6);
  });

  it('restarts a board whose regulator dips 900 mV, not one that dips 140 (wled/WLED#5570)', () => {
    const rig = defaultRig();
    rig.supply = { volts: 3.3, tolerance: 0, sag: 0 };
    const { brownOut } = sizePower(rig);
    expect(brownOut.poorV).toBeCloseTo(2.4, 9);
    expect(brownOut.goodV).toBeCloseTo(3.16, 9);
    expect(brownOut.poorV).toBeLessThan(brownOut.detectorV);
    expect(brownOut.goodV).toBeGreaterThan(brownOut.detectorV);
  });

  it('is found on a supply that sags, with a capacitor for a cure', () => {
    const rig = defaultRig();
    rig.supply = { volts: 3.3, tolerance: 0.05, sag: 0.25 };
    const [margin] = marginsOn(sizePower(rig).margins, /while the radio starts/);
    expect(verdictOf(margin!)).toBe('no');
    expect(margin!.cure).toMatch(/100 µF/);
  });
});

describe('a plan of brakes', () => {
  const refusals = (brakes: Brakes) =>
    brakePlan(brakes, 0.5).margins.filter((margin) => verdictOf(margin) === 'no');

  it('with clutch, cut-off and a supply of its own is not refused', () => {
    const plan = brakePlan(SAFE, 0.5);
    expect(plan.lacks).toEqual([]);
    expect(refusals(SAFE)).toEqual([]);
    expect(plan.stallA).toBeCloseTo(3.25, 9); // 5·650 mA
  });

  it.each<[string, Partial<Brakes>, string, RegExp]>([
    ['a clutch that holds 12 N', { clutchN: 12 }, 'a slip clutch that holds 12 N', /slip clutch/],
    ['no cut-off', { hasCutOff: false }, 'no hardware cut-off', /hardware cut-off/],
    ['the board’s supply', { supply: 'cell' }, 'no supply of their own', /supply of the brakes/],
  ])('is refused for %s, and says that people get hurt', (_, change, lack, what) => {
    const brakes = { ...SAFE, ...change };
    expect(brakePlan(brakes, 0.5).lacks).toEqual([lack]);
    const margin = refusals(brakes).find((m) => what.test(m.what))!;
    expect(margin.allowed).toMatch(/refused without it, since people get hurt/);
    expect(margin.cure.length).toBeGreaterThan(20);
  });

  it('has every missing item named at once', () => {
    const bare: Brakes = { pins: [25], stallA: 0.65, supply: 'cell', hasCutOff: false };
    expect(brakePlan(bare, 0.5).lacks).toEqual([
      'no slip clutch',
      'no hardware cut-off',
      'no supply of their own',
    ]);
  });

  it('on a small cell is refused: 5·650 mA = 3.25 A is far beyond 1C of 500 mAh', () => {
    const size = sizePower(withBrakes({ ...SAFE, supply: 'cell' }));
    const [margin] = marginsOn(size.margins, /servos from the board’s cell/);
    expect(margin!.seen).toMatch(/^3\.25 A/);
    expect(margin!.allowed).toMatch(/0\.50 A/);
    expect(margin!.ratio).toBeCloseTo(0.5 / 3.25, 9);
    expect(margin!.cure).toMatch(/supply of their own/);
  });

  it('asks its own supply for all servos held at once', () => {
    const [weak] = marginsOn(brakePlan({ ...SAFE, supplyA: 3 }, 0.5).margins, /own supply gives/);
    expect(weak!.ratio).toBeCloseTo(3 / 3.25, 9);
    expect(verdictOf(weak!)).toBe('no');
    const { supplyA: _, ...silent } = SAFE;
    const [unknown] = marginsOn(brakePlan(silent, 0.5).margins, /own supply gives/);
    expect([unknown!.seen, verdictOf(unknown!)]).toEqual(['not stated', 'tight']);
  });
});

describe('boards that restart as servos move together (dorianborian/sesame-robot#33: cured by 1000 uF)', () => {
  it('are told to take more than 1000 uF, or to start one after the other, for which 1000 is plenty', () => {
    const plan = brakePlan(SAFE, 0.5);
    // 3.25 A·200 us/0.5 V = 1300 uF; 0.65 A: 260 uF; E6 above
    expect(plan.togetherF).toBe(1500e-6);
    expect(plan.staggeredF).toBe(330e-6);
  });

  it('have the missing capacitor found, and the cure named', () => {
    const { capacitorF: _, ...bare } = SAFE;
    const [margin] = marginsOn(brakePlan(bare, 0.5).margins, /capacitor beside the servos/);
    expect(margin!.ratio).toBe(0);
    expect(margin!.cure).toMatch(/1500 µF.*one after the other/);
    const [cured] = marginsOn(brakePlan(SAFE, 0.5).margins, /capacitor beside the servos/);
    expect(cured!.ratio).toBeGreaterThan(1);
  });

  it('are named beside a supply that feeds both', () => {
    const [margin] = marginsOn(brakePlan({ ...SAFE, supply: 'cell' }, 0.5).margins, /supply of the brakes/);
    expect(margin!.cure).toMatch(/servos that start together restart a board on the same supply/);
  });
});

describe('the sizes of power', () => {
  it('are plain data: nothing that JSON cannot hold', () => {
    const size = sizePower(withBrakes({ pins: [25], stallA: 0.65, supply: 'cell', hasCutOff: false }));
    expect(JSON.parse(JSON.stringify(size))).toEqual(size);
  });
});
