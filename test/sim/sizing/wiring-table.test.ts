import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import { MULTIPLEXER } from '../../../sim/sizing/pins/multiplexer-pins.ts';
import { sizePins } from '../../../sim/sizing/pins/pins-size.ts';
import { pinName } from '../../../sim/sizing/pins/wiring-table.ts';
import { cornerVolts, dividerOf } from '../../../sim/sizing/wiring/corners.ts';
import { cellParts, joystickResistors } from '../../../sim/sizing/wiring/divider-parts.ts';

const lines = (rig = defaultRig('esp32'), isCellMeasured = false) =>
  sizePins(rig, isCellMeasured).wiring.map(
    ({ from, to, gpio, through, note }) =>
      `${from} > ${to}${gpio === undefined ? '' : ` = ${gpio}`} > ${through}${note === '' ? '' : ` (${note})`}`,
  );

describe('the wiring table', () => {
  it('names both resistors, the pin, the capacitor and the pull-down of each string', () => {
    const rig = defaultRig('esp32');
    const wires = lines(rig);
    expect(wires).toHaveLength(25);
    expect(wires.filter((line) => line.startsWith('little'))).toEqual([
      'little potentiometer, top end > 3V3 > 5.6 kΩ (the end it turns to as the finger bends)',
      'little potentiometer, bottom end > GND > 1 kΩ',
      'little potentiometer, wiper > IO36 (VP) = 36 > wire',
      'little wiper > GND > 100 nF (near the pin)',
      'little wiper > GND > 100 kΩ (near the pin; shows a broken wire)',
    ]);
  });

  it('has no row for a part that is not there, and a wire for a resistor of nothing', () => {
    const rig = defaultRig('esp32');
    rig.fingers.length = 1;
    Object.assign(rig.fingers[0]!.wiring, { bottomOhm: 0, capacitorF: 0, pullDownOhm: 0 });
    expect(lines(rig).slice(1)).toEqual([
      'thumb potentiometer, bottom end > GND > wire',
      'thumb potentiometer, wiper > IO32 = 32 > wire',
    ]);
  });

  it('ties the multiplexer down, and keeps capacitors off its common line', () => {
    const rig = defaultRig('esp32-c3');
    const wires = lines(rig);
    expect(wires.slice(0, 10)).toEqual([
      'multiplexer VCC (pin 16) > 3V3 > wire',
      'multiplexer VCC (pin 16) > GND > 100 nF (right at the chip)',
      'multiplexer GND (pin 8) > GND > wire',
      'multiplexer VEE (pin 7) > GND > wire',
      'multiplexer E (pin 6) > GND > wire (always on)',
      'multiplexer S0 (pin 11) > IO10 = 10 > wire',
      'multiplexer S1 (pin 10) > IO6 = 6 > wire',
      'multiplexer S2 (pin 9) > IO7 = 7 > wire',
      'multiplexer COM (pin 3) > IO0 = 0 > wire (no capacitor here: it would mix the strings)',
      'multiplexer Y5, Y6, Y7 > GND > wire (inputs that nothing uses)',
    ]);
    expect(wires).toContain('ring potentiometer, wiper > multiplexer Y3 (pin 12) > wire');
    expect(wires).toContain('ring wiper > GND > 100 nF (near the multiplexer)');
  });

  it('follows the plan where it moves a wire', () => {
    const rig = defaultRig('esp32');
    rig.buttons = [12];
    expect(lines(rig)).toContain('button 1, one side > IO18 = 18 > wire (the pull-up is in the board)');
    expect(lines(rig)).toContain('button 1, other side > GND > wire');
  });

  it('has the dividers of rail and cell, the stick, the servos and the second port', () => {
    const rig = defaultRig('esp32');
    rig.fingers.length = 1;
    rig.rail = { pin: 33, divider: 0.5 };
    rig.joystick = { xPin: 34, yPin: 35 };
    rig.brakes = { pins: [21], stallA: 0.65, supply: 'own', hasCutOff: true };
    rig.frameLink = { txPin: 17, baud: 230_400 };
    expect(lines(rig, true).slice(5)).toEqual([
      'joystick, plus > 3V3 > 2.7 kΩ (for two axes of 10 kΩ side by side)',
      'joystick, minus > GND > 470 Ω',
      'joystick, x > IO34 = 34 > wire',
      'joystick, x > GND > 100 nF (near the pin)',
      'joystick, y > IO35 = 35 > wire',
      'joystick, y > GND > 100 nF (near the pin)',
      'rail divider, middle > IO33 = 33 > wire',
      'rail divider, middle > 3V3 of the potentiometers > 10 kΩ',
      'rail divider, middle > GND > 10 kΩ',
      'rail divider, middle > GND > 100 nF (near the pin)',
      'cell divider, middle > IO36 (VP) = 36 > wire',
      'cell divider, middle > cell, plus > 100 kΩ',
      'cell divider, middle > GND > 100 kΩ',
      'cell divider, middle > GND > 100 nF (near the pin)',
      'other board, RX > IO17 = 17 > wire (join the grounds of both; leave GPIO5 open)',
      'servo 1, signal > IO21 = 21 > wire (servo on a supply of its own; join the grounds)',
    ]);
  });

  // data sheet of the SN74LV4051A, table of pins: Y0 to Y7 on 13, 14, 15, 12, 1, 5, 2, 4; A, B, C on 11, 10, 9
  it('counts the multiplexer’s 16 pins each once', () => {
    const { inputs, selects, common, enable, negative, ground, positive } = MULTIPLEXER;
    expect(inputs).toEqual([13, 14, 15, 12, 1, 5, 2, 4]);
    const all = [...inputs, ...selects, common, enable, negative, ground, positive];
    expect(all.sort((a, b) => a - b)).toEqual(Array.from({ length: 16 }, (_, i) => i + 1));
  });

  it('calls pins what boards print', () => {
    expect(pinName('esp32', 36)).toBe('IO36 (VP)');
    expect(pinName('esp32', 39)).toBe('IO39 (VN)');
    expect(pinName('esp32-s3', 39)).toBe('IO39');
  });
});

describe('dividers beside the strings', () => {
  // by hand: 3.3 V * (470 + 6000) / (2700 + 470 + 6000) = 2.33 V with pots of +20 %, below 2.45 V
  it('keep both ends of a stick of two 10 kΩ axes inside the converter’s range', () => {
    const rig = defaultRig('esp32');
    const pair = joystickResistors(rig)!;
    const corners = cornerVolts({
      ...dividerOf(rig, rig.fingers[0]!),
      ...pair,
      potOhm: 5000,
      pullDownOhm: 0,
      potTolerance: 0.2,
    });
    expect(corners.highestV).toBeLessThan(2.45);
    expect(corners.lowestV).toBeGreaterThan(0.15);
    expect(pair).toEqual({ topOhm: 2700, bottomOhm: 470 });
  });

  // a full cell has 4.2 V: half of it, 2.1 V, is below the 2.45 V (2.5, 2.9 V) of the three chips
  it('halve the cell', () => {
    for (const board of ['esp32', 'esp32-c3', 'esp32-s3'] as const) {
      const { topOhm, bottomOhm } = cellParts(defaultRig(board));
      expect(topOhm).toBe(bottomOhm);
    }
  });
});
