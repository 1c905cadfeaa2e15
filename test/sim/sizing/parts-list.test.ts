import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../sim/rig/rig.ts';
import type { Part } from '../../../sim/sizing/parts/part-catalogue.ts';
import { partsList } from '../../../sim/sizing/parts/parts-list.ts';
import { stringLength } from '../../../sim/sizing/strings/string-length.ts';
import { strokeMm } from '../../../sim/sizing/strings/stroke.ts';
import { railResistors } from '../../../sim/sizing/wiring/rail-resistors.ts';
import { readRig } from '../../../workbench/rig/read-rig.ts';

const example = (name: string) => readRig(`examples/${name}.yaml`).rig;
const counts = (parts: Part[]) =>
  Object.fromEntries(parts.map(({ id, spec, quantity }) => [`${id} ${spec}`, quantity]));
const quantityOf = (parts: Part[], id: string) =>
  parts.filter((part) => part.id === id).reduce((sum, { quantity }) => sum + quantity, 0);

describe('parts of the puppet theatre’s right hand', () => {
  const rig = example('puppet-right');
  const one = partsList(rig, 1);

  // counted by hand: five fingers of 10 k with 5.6 k and 1 k, 100 k and 100 nF at each pin (examples/puppet-right.yaml
  // and the defaults of the ESP32), one spare potentiometer in five, two screws for each lid and each cap, four for the board
  it('are five of each resistor, five capacitors, six potentiometers', () => {
    expect(counts(one)).toMatchObject({
      'board-esp32 ESP32 (WROOM-32), on a carrier with USB': 1,
      'potentiometer 10 kΩ ±20 %, linear, 280°': 6,
      'spring 5.3 mN·m open, 1.767 more a turn': 5,
      'resistor 5.6 kΩ ±5 %': 5,
      'resistor 1 kΩ ±5 %': 5,
      'resistor 100 kΩ ±5 %': 5,
      'capacitor 100 nF ceramic': 5,
      'bufferCapacitor 100 µF, 10 V': 1,
      'connector 3 poles': 5,
      'quickRelease opens under a hard pull': 5,
      'screw self-tapping, 2 × 8 mm': 10,
      'screw self-tapping, 2 × 4 mm': 10,
      'screw M3 × 10, with nut': 4,
      'glove for the right hand, mean size': 1,
    });
    expect(quantityOf(one, 'resistor')).toBe(15);
    for (const id of ['multiplexer', 'joystick', 'button', 'cell', 'servo', 'serialAdapter']) {
      expect(quantityOf(one, id)).toBe(0);
    }
  });

  // 5 · 3 wires · 0.3 m; metacarpals of 46.22 + 68.12 + 64.6 + 58 + 53.69 mm and a fifth more: 349 mm; discs of 17 mm,
  // 6 mm wide at 1.24 g/cm³ are 6.755 g: 1.2·(40 + 5·(6.755 + 12 + 4)) = 184.5 g
  it('are 4.5 m of wire, half a metre of tube and 190 g of filament, rounded up to what is sold', () => {
    expect(['wire', 'tube', 'filament'].map((id) => quantityOf(one, id))).toEqual([4.5, 0.5, 190]);
    expect(['wire', 'tube', 'filament'].map((id) => quantityOf(partsList(rig, 2), id))).toEqual([9, 1, 370]);
  });

  it('are two strings a finger, cut as the spool asks for a hand a tenth larger', () => {
    const cutMm = rig.fingers.map((finger) => stringLength(finger, strokeMm(rig, finger, 1.1), 1.1).cutMm);
    const twiceM = (2 * cutMm.reduce((sum, mm) => sum + mm, 0)) / 1000;
    const got = quantityOf(one, 'string');
    expect(got).toBeGreaterThanOrEqual(twiceM);
    expect(got).toBeLessThan(twiceM + 0.5);
  });

  it('double for two hands, with two spares in ten and one charger', () => {
    const two = partsList({ ...rig, cell: { capacityMAh: 500 } }, 2);
    expect(quantityOf(two, 'potentiometer')).toBe(12);
    expect(quantityOf(two, 'resistor')).toBe(30);
    expect(quantityOf(two, 'usbCable')).toBe(2);
    expect([quantityOf(two, 'cell'), quantityOf(two, 'cellCharger')]).toEqual([2, 1]);
    expect(counts(two)['glove one left, one right, mean size']).toBe(2);
  });

  it('each say what they are for and which line of the rig file asks for them', () => {
    for (const { why, from } of one) {
      expect(why).not.toBe('');
      expect(from).toMatch(/^[a-zA-Z.]+(, [a-zA-Z.]+)*$/);
    }
    expect(one.find(({ spec }) => spec.startsWith('5.6'))).toMatchObject({
      why: 'from supply to potentiometer',
      from: 'fingers.wiring.top',
    });
    expect(one.find(({ id }) => id === 'potentiometer')?.why).toBe('5 for the fingers, 1 spare');
  });
});

describe('parts of other rigs', () => {
  it('of three fingers on a breadboard: no capacitors, four potentiometers, 2.7 m of wire sold as 3', () => {
    const parts = partsList(example('marionette-left'), 1);
    expect(quantityOf(parts, 'capacitor')).toBe(0);
    expect(quantityOf(parts, 'potentiometer')).toBe(4);
    expect(quantityOf(parts, 'wire')).toBe(3);
    expect(counts(parts)['resistor 5.6 kΩ ±5 %']).toBe(3);
  });

  it('put equal values into one line and leave wires out', () => {
    const rig = defaultRig();
    for (const { wiring } of rig.fingers)
      Object.assign(wiring, { topOhm: 1000, bottomOhm: 1000, pullDownOhm: 0 });
    const resistors = partsList(rig, 1).filter(({ id }) => id === 'resistor');
    expect(resistors).toHaveLength(1);
    expect(resistors[0]).toMatchObject({
      quantity: 10,
      why: '5 from supply to potentiometer, 5 from potentiometer to ground',
      from: 'fingers.wiring.top, fingers.wiring.bottom',
    });
  });

  it('hold all that the rig has beside its strings', () => {
    const rig: Rig = {
      ...defaultRig(),
      joystick: { xPin: 37, yPin: 38 },
      buttons: [13, 14, 16],
      rail: { pin: 39, divider: 0.5 },
      frameLink: { txPin: 17, baud: 230_400 },
      multiplexer: { selectPins: [25, 26, 27], signalPin: 32 },
      cell: { capacityMAh: 1200 },
      brakes: {
        pins: [18, 19],
        stallA: 0.65,
        supply: 'own',
        clutchN: 10,
        capacitorF: 1e-3,
        hasCutOff: true,
      },
    };
    // rail: 10 k and 10 k of 1 %; supply for 2 servos at 0.65 A = 1.3 A; wire 5·3 + 4 + 3·2 + 2 = 27 of 0.3 m = 8.1 m
    expect(counts(partsList(rig, 1))).toMatchObject({
      'joystick two axes, 10 kΩ': 1,
      'button closes to ground': 3,
      'preciseResistor 10 kΩ ±1 %': 2,
      'serialAdapter 3.3 V levels': 1,
      'multiplexer 8 analog inputs, 3.3 V': 1,
      // five pins, the multiplexer, two axes, the rail
      'capacitor 100 nF ceramic': 9,
      'connector 4 poles': 1,
      'wire thin, flexible': 8.5,
      'cell 1200 mAh, with protection circuit': 1,
      'cellCharger made for this cell': 1,
      'cellRegulator from the cell to the board': 1,
      'servo stalls at 0.65 A': 2,
      'servoSupply 1.3 A or more': 1,
      'servoSwitch 1.3 A or more': 1,
      'slipClutch slips at 10 N of string': 2,
      'bufferCapacitor 1000 µF, 10 V': 1,
    });
  });

  it('name long-life and multi-turn potentiometers as what they are, with a spare of each kind', () => {
    const rig = defaultRig();
    rig.fingers[0]!.potentiometer.ratedCycles = 100_000;
    rig.fingers[1]!.potentiometer.mechanicalTravelDeg = 1080;
    const parts = partsList(rig, 1);
    expect(
      ['potentiometer', 'longLifePotentiometer', 'multiTurnPotentiometer'].map((id) => quantityOf(parts, id)),
    ).toEqual([4, 2, 2]);
  });

  it('hold one board of the kind that the rig names', () => {
    for (const board of ['esp32', 'esp32-s3', 'esp32-c3'] as const) {
      const boards = partsList(defaultRig(board), 1).filter(({ id }) => id.startsWith('board-'));
      expect(boards.map(({ id, quantity }) => [id, quantity])).toEqual([[`board-${board}`, 1]]);
    }
  });
});

describe('resistors of the rail’s divider', () => {
  // by hand: 10/(10 + 10); 20/(10 + 20) and 10/(5 + 10) are not in E24 with 5, 10/(20 + 10) = 1/3
  it.each([
    [0.5, 10_000, 10_000],
    [1 / 3, 20_000, 10_000],
    [1, 0, 0],
  ])('for a share of %f', (share, topOhm, bottomOhm) => {
    expect(railResistors(share)).toEqual({ topOhm, bottomOhm });
  });

  it('are within 1.5 % of any share from 5 to 95 %', () => {
    for (let share = 0.05; share < 0.951; share += 0.01) {
      const { topOhm, bottomOhm } = railResistors(share);
      expect(Math.abs(bottomOhm / (topOhm + bottomOhm) / share - 1)).toBeLessThan(0.015);
    }
  });
});
