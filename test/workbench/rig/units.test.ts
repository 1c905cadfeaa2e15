import { describe, expect, it } from 'vitest';
import type { Dimension } from '../../../workbench/rig/unit-table.ts';
import { formatQuantity, parseQuantity } from '../../../workbench/rig/units.ts';

function value(input: unknown, dimension: Dimension): number {
  const read = parseQuantity(input, dimension);
  if (!read.ok) throw new Error(`${String(input)}: ${read.seen}; ${read.expected}`);
  return read.value;
}

describe('units as people write them', () => {
  // Powers of ten are exact by definition of the SI prefixes; 1 in = 25.4 mm exactly (1959 agreement).
  it.each<[unknown, Dimension, number]>([
    ['12.5 mm', 'length', 12.5],
    ['1.25cm', 'length', 12.5],
    ['0.5 in', 'length', 12.7],
    [12.5, 'length', 12.5],
    ['10k', 'resistance', 10_000],
    ['10K', 'resistance', 10_000],
    ['4.7 kΩ', 'resistance', 4700],
    ['4.7 k\u2126', 'resistance', 4700],
    ['4k7', 'resistance', 4700],
    ['2M2', 'resistance', 2_200_000],
    ['5R6', 'resistance', 5.6],
    ['560 ohm', 'resistance', 560],
    ['910', 'resistance', 910],
    ['100 nF', 'capacitance', 1e-7],
    ['0.1uF', 'capacitance', 1e-7],
    ['0.1 \u00b5F', 'capacitance', 1e-7],
    ['0.1 \u03bcF', 'capacitance', 1e-7],
    [0, 'capacitance', 0],
    ['0.35 N', 'force', 0.35],
    ['350 mN', 'force', 0.35],
    ['5.3 mN·m', 'torque', 5.3],
    ['5.3mNm', 'torque', 5.3],
    ['0.53 cNm', 'torque', 5.3],
    ['0.0053 N·m', 'torque', 5.3],
    ['5.3 N mm', 'torque', 5.3],
    ['1.767 mN·m/turn', 'torquePerTurn', 1.767],
    ['1.767 mN·m per turn', 'torquePerTurn', 1.767],
    ['30 %', 'share', 0.3],
    ['±20 %', 'share', 0.2],
    [0.3, 'share', 0.3],
    ['7 %', 'share', 0.07],
    ['0.5 %', 'percent', 0.5],
    ['3.3 V', 'voltage', 3.3],
    ['3300 mV', 'voltage', 3.3],
    ['45°', 'angle', 45],
    ['45 deg', 'angle', 45],
    ['0.5 turn', 'angle', 180],
    ['100 Hz', 'frequency', 100],
    ['0.1 kHz', 'frequency', 100],
    ['20 ms', 'time', 20],
    ['0.02 s', 'time', 20],
    ['0.3 N/mm', 'stiffness', 0.3],
    ['300 N/m', 'stiffness', 0.3],
    ['6 counts', 'counts', 6],
    ['1e3 mm', 'length', 1000],
  ])('reads %j as %s', (input, dimension, expected) => {
    expect(value(input, dimension)).toBe(expected);
  });

  // The kilogram-force is 9.80665 N by definition (3rd CGPM, 1901): 1 gf·cm = 0.0980665 mN·m.
  it.each<[string, Dimension, number]>([
    ['1 gf·cm', 'torque', 0.0980665],
    ['1gfcm', 'torque', 0.0980665],
    ['54 gf·cm', 'torque', 5.295591],
    ['1 kgf·cm', 'torque', 98.0665],
    ['100 gf', 'force', 0.980665],
    ['100 g', 'force', 0.980665],
    ['1 kgf', 'force', 9.80665],
  ])('converts %s by the definition of the kilogram-force', (input, dimension, expected) => {
    expect(value(input, dimension)).toBeCloseTo(expected, 12);
  });

  it('turns radians into degrees', () => {
    expect(value('3.141592653589793 rad', 'angle')).toBeCloseTo(180, 12);
  });

  it.each<[unknown, Dimension, RegExp, RegExp]>([
    ['12 mm', 'resistance', /"12 mm", which is a length/, /a resistance, such as/],
    ['10k', 'length', /"10k", which is a resistance/, /a length/],
    ['5 N', 'torque', /which is a force/, /a torque/],
    ['12 furlongs', 'length', /unknown unit "furlongs"/, /a length/],
    ['10 mohm', 'resistance', /unknown unit "mohm"/, /a resistance/],
    ['12,5 mm', 'length', /with a comma/, /a length/],
    ['mm', 'length', /does not start with a number/, /a length/],
    [Number.NaN, 'length', /not a number/, /a length/],
    [Number.POSITIVE_INFINITY, 'length', /infinite/, /a length/],
    ['1e999 mm', 'length', /too large/, /a length/],
    [100, 'capacitance', /100 without a unit/, /a capacitance/],
    [0.5, 'percent', /0.5 without a unit/, /a percentage/],
    [null, 'force', /nothing/, /a force/],
    [true, 'force', /true/, /a force/],
    [[1], 'force', /a list/, /a force/],
  ])('refuses %j as %s and says why', (input, dimension, seen, expected) => {
    const read = parseQuantity(input, dimension);
    if (read.ok) throw new Error(`read as ${read.value}`);
    expect(read.seen).toMatch(seen);
    expect(read.expected).toMatch(expected);
    expect(read.next).not.toBe('');
  });

  it('tells how to write a decimal comma', () => {
    const read = parseQuantity('12,5 mm', 'length');
    expect(read.ok ? '' : read.next).toBe('write a decimal point: 12.5 mm');
  });

  it('writes capacitors, resistors and shares as people do', () => {
    expect(formatQuantity(1e-7, 'capacitance')).toBe('100 nF');
    expect(formatQuantity(5600, 'resistance')).toBe('5.6 kΩ');
    expect(formatQuantity(560, 'resistance')).toBe('560 ohm');
    expect(formatQuantity(0.07, 'share')).toBe('7 %');
  });
});
