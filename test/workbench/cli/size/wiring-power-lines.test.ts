import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../../sim/rig/rig.ts';
import { sizePower } from '../../../../sim/sizing/power/power-size.ts';
import { sizeWiring } from '../../../../sim/sizing/wiring/wiring-size.ts';
import { powerLines } from '../../../../workbench/cli/size/power-lines.ts';
import { alike, wiringLines } from '../../../../workbench/cli/size/wiring-lines.ts';
import { columnsOf } from '../../../../workbench/report/wrap.ts';

/** Every finger wired in a way of its own, a slow frame, a multiplexer: the widest that tables get. */
function motley(): Rig {
  const rig = defaultRig('esp32-c3');
  rig.frameRateHz = 10;
  rig.fingers.forEach((finger, i) => {
    finger.channel = i;
    finger.potentiometer.resistanceOhm = 123_400 * (i + 1);
    finger.potentiometer.ratedCycles = 1e7;
    finger.wiring.capacitorF = i === 0 ? 0 : 1e-6;
    if (i === 1) finger.wiring.pullDownOhm = 0;
  });
  return {
    ...rig,
    multiplexer: { selectPins: [5, 6, 7], signalPin: 0 },
    rail: { pin: 1, divider: 0.5 },
    cell: { capacityMAh: 12_345, maxA: 20 },
    brakes: { pins: [10], stallA: 9.99, supply: 'cell', hasCutOff: false },
  };
}

describe('lines for the terminal', () => {
  it.each([
    ['the default rig', defaultRig()],
    ['a motley rig', motley()],
  ])('of %s fit 80 columns, without trailing spaces or words of a program', (_, rig) => {
    for (const lines of [wiringLines(sizeWiring(rig, [0.9, 1.1]), 80), powerLines(sizePower(rig), 80)]) {
      for (const line of lines) {
        expect(columnsOf(line), line).toBeLessThanOrEqual(80);
        expect(line).toBe(line.trimEnd());
        expect(line).not.toMatch(/NaN|undefined|null|Infinity|endless/);
      }
    }
  });

  it('tell resistors, settling and supply of the default rig', () => {
    const text = wiringLines(sizeWiring(defaultRig(), [1, 1]), 200)
      .join(' ')
      .replace(/ +/g, ' ');
    expect(text).toMatch(/^Wiring /);
    expect(text).toMatch(/planned ±5 % 5\.6 kΩ 1 kΩ/);
    expect(text).toMatch(/E24 ±1 %/);
    expect(text).toMatch(/100 nF is the largest capacitor that settles in half a frame/);
    expect(text).toMatch(/9\.01 time constants/);
    expect(text).toMatch(/2\.8-13\.9/); // hours of 10 000 cycles
  });

  it('send capacitors behind a multiplexer to its inputs', () => {
    expect(
      wiringLines(sizeWiring(motley(), [1, 1]), 200)
        .join(' ')
        .replace(/ +/g, ' '),
    ).toMatch(/belong at its inputs/);
    expect(
      wiringLines(sizeWiring(defaultRig(), [1, 1]), 200)
        .join(' ')
        .replace(/ +/g, ' '),
    ).not.toMatch(/multiplexer/);
  });

  it('refuse brakes by name, and always end with the cautions', () => {
    const text = powerLines(sizePower(motley()), 200).join(' ').replace(/ +/g, ' ');
    expect(text).toMatch(/refused, since people get hurt: no slip clutch, no hardware cut-off, no supply of/);
    for (const rig of [defaultRig(), motley()]) {
      expect(powerLines(sizePower(rig), 200).at(-1)).toMatch(/Local rules and qualified people come first/);
    }
  });

  it('put equal fingers into one row', () => {
    expect(alike([['a', '1'], ['b', '1']])).toEqual([['all', '1']]); // biome-ignore format: a table
    expect(alike([['a', '1'], ['b', '2'], ['c', '1']])).toEqual([['a, c', '1'], ['b', '2']]); // biome-ignore format: a table
    expect(alike([['a', '1']])).toEqual([['a', '1']]);
  });
});
