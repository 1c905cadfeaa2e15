import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { runHere } from './run-here.ts';

const folder = mkdtempSync(join(tmpdir(), 'tautline-size-field-'));

/** What people ran into, on rigs of the puppet theatre (invented): the warning must name cause and cure. */
const FIELD: [source: string, rig: string, cause: RegExp, cure: RegExp][] = [
  [
    'espressif/arduino-esp32#440: 4095 on an ADC2 pin as soon as the radio is on',
    'fingers: { index: { pin: 25 } }',
    /on ADC2, which belongs to the radio/,
    /move the wire to GPIO3[2-9]/,
  ],
  [
    'espressif/esp-idf#1096: 36 and 39 are pulled low when the radio wakes',
    'fingers: { index: { pin: 36 } }',
    /GPIO36, which the chip pulls low for a moment/,
    /move the wire to GPIO32|GPIO3[2-5]/,
  ],
  [
    'micropython/micropython#6149: GPIO12 high at boot, the flash gets the wrong voltage',
    'fingers: { index: { pin: 32 } }\nbuttons: [12]',
    /strapping pin/,
    /GPIO12 chooses the flash voltage at reset|move the wire/,
  ],
  [
    'ATOVproject/faderpunk#556: wander of 16-19 counts mid travel, from the impedance behind the pin',
    'noise: { preset: quiet, wander: 18 counts }\neachFinger: { potentiometer: { resistance: 100k } }\nfingers: { index: { pin: 32 } }',
    /wander picked up where the wiper’s resistance is highest/,
    /a potentiometer of less resistance/,
  ],
  [
    'omriharel/deej#16, #139: the supply is not what the converter measures against',
    'supply: { voltage: 5 V, tolerance: 8 % }\nfingers: { index: { pin: 32 } }',
    /voltage over the potentiometers/,
    /feed the potentiometers from the 3V3 pin/,
  ],
  [
    'adafruit/circuitpython#4469: inputs with nothing on them wander',
    'eachFinger: { wiring: { pullDown: 0 } }\nfingers: { index: { pin: 32 } }',
    /an open wiper told from a hand/,
    /a resistor of 100 kΩ from the pin to ground/,
  ],
  [
    'opentx/opentx#4172: nothing moves in the first and last 10-15 % of the travel',
    'eachFinger: { potentiometer: { electricalTravel: 200 deg, mechanicalTravel: 280 deg } }\nfingers: { index: { pin: 32 } }',
    /nothing moves over the first and last \d/,
    /take a spool of \d+(\.\d)? mm radius/,
  ],
  [
    'barsk/G27_Pedals_and_Shifter#2: pedals that nobody touches jitter, one moves the other',
    'noise: { preset: typical, residue: 4 % }\neachFinger: { potentiometer: { resistance: 100k } }\nfingers: { index: { pin: 32 }, middle: { pin: 33 } }',
    /closure by which the finger read before moves this one/,
    /dummyRead: true.*clean its potentiometer and check its wires/,
  ],
  [
    'dorianborian/sesame-robot#33: the board starts anew when the servos move together',
    'cell: { capacity: 500 mAh }\nbrakes: { pins: [18, 19, 21, 22, 23], stallCurrent: 650 mA, supply: cell, clutch: 8 N, cutOff: yes }\nfingers: { index: { pin: 32 } }',
    /3\.25 A|3250 mA/,
    /supply of their own/,
  ],
];

it.each(FIELD)('foreseen: %s', async (_, rig, cause, cure) => {
  const path = join(folder, 'rig.yaml');
  writeFileSync(path, `board: esp32\n${rig}\n`);
  const { code, stdout, stderr } = await runHere('size', path, '--full');
  const told = `${stdout}\n${stderr}`.replace(/\s+/g, ' ');
  expect(code).toBeLessThanOrEqual(2);
  expect(told).toMatch(cause);
  expect(told).toMatch(cure);
});
