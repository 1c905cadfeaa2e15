import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { voltsAt } from '../../../firmware/boards/adc-curve.ts';
import type { BoardPlan } from '../../../firmware/main/board-plan.ts';
import { planOfRig } from '../../../workbench/bundle/plan-of-rig.ts';
import { parseRig } from '../../../workbench/rig/parse-rig.ts';

const SETTINGS = `
settings: {oversampling: 8, despike: none, lowPass: none, hysteresis: none}
`;

function planOfExample(name: string): BoardPlan {
  const text = readFileSync(`examples/${name}.yaml`, 'utf8');
  return planOfRig(parseRig(/^settings:/m.test(text) ? text : text + SETTINGS, name).rig);
}

/*
 * Volts at the pin, worked out in Python without any of this repository: string = sum of moment arm times angle
 * (90, 100, 66.7 deg; thumb 15, 50, 80 deg) times the hand's size; spool turn n from string = 2 pi (r n - d n²/2), by
 * bisection; stroke in the middle of 280 deg, track of 260 deg; voltage of the loaded divider by Ohm's law. In the rig
 * files: r 15 mm and d 0.3 mm, marionette-right 17 (thumb 15) and 0.35 mm; 5.6 k, 10 k, 1 k, marionette-right 5.1 k and
 * 910 ohm; 100 k from the pin to ground; 3.3 V.
 */
const THUMB = [0.7901, 1.5086] as const;
const OTHER = [0.4261, 1.8761] as const; // 51.662 mm, 198.43 deg
const EXAMPLES: { [name: string]: (readonly [open: number, closed: number])[] } = {
  'puppet-right': [THUMB, OTHER, OTHER, OTHER, OTHER],
  // middle 53.029 mm, little finger 46.397 mm
  'puppet-left': [THUMB, OTHER, [0.4066, 1.8959], OTHER, [0.501, 1.8003]],
  // 0.95 of the hand: 24.539 and 49.079 mm
  'marionette-left': [
    [0.8082, 1.4904],
    [0.4629, 1.8389],
    [0.4629, 1.8389],
  ],
  // 1.1 of the hand: 28.414 and 56.828 mm
  'marionette-right': [
    [0.7642, 1.5864],
    [0.4463, 1.9083],
    [0.4463, 1.9083],
    [0.4463, 1.9083],
    [0.4463, 1.9083],
  ],
};

describe('ends built into the program of an example', () => {
  it('are checked for every example', () => {
    const files = readdirSync('examples').filter((file) => file.endsWith('.yaml'));
    expect(files.map((file) => file.replace('.yaml', '')).sort()).toEqual(Object.keys(EXAMPLES).sort());
  });

  it.each(Object.keys(EXAMPLES))('are where its parts put them on paper: %s', (name) => {
    const { fingers } = planOfExample(name);
    expect(fingers.map((f) => f.slot)).toEqual(EXAMPLES[name]!.map((_, slot) => slot));
    fingers.forEach((finger, i) => {
      const [open, closed] = EXAMPLES[name]![i]!;
      // within half a code of the converter, 0.41 mV at most between 0.3 and 2 V, and the rounding of the table
      expect(Math.abs(voltsAt('esp32', 11, finger.ends.open * 4096) - open)).toBeLessThan(0.0005);
      expect(Math.abs(voltsAt('esp32', 11, finger.ends.closed * 4096) - closed)).toBeLessThan(0.0005);
    });
  });

  it('take half of the lowest wiper’s reading for open, on the chip that reads lowest', () => {
    /*
     * By Ohm's law: 3.3 V - 3 % - 0.2 %, 5.6 k + 5 %, 10 k + 20 %, 950 ohm beside 100 k: 159.7 mV. The average chip
     * reads 77 counts at 200 mV and nothing at 139 mV (kisel/esp32_adc_test), so 26 there; one with a reference of
     * 1200 mV for 1100 mV (ESP-IDF documentation) 24.
     */
    const { fingers } = planOfExample('puppet-right');
    for (const { openBelow } of fingers) expect(Math.abs(openBelow * 4096 - 12)).toBeLessThan(1);
  });

  it('have no level for open without a resistor from the pin to ground', () => {
    const text = readFileSync('examples/puppet-right.yaml', 'utf8').replace(
      'eachFinger:',
      'eachFinger:\n  wiring: {pullDown: 0}',
    );
    const { fingers } = planOfRig(parseRig(text + SETTINGS, 'rig.yaml').rig);
    expect(fingers.map((f) => f.openBelow)).toEqual([0, 0, 0, 0, 0]);
  });
});
