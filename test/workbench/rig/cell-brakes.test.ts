import { describe, expect, it } from 'vitest';
import { TautlineError } from '../../../sim/errors.ts';
import { parseRig } from '../../../workbench/rig/read-rig.ts';
import { formatQuantity, parseQuantity } from '../../../workbench/rig/units.ts';

const INDEX = 'fingers:\n  index: {pin: 33}\n';
const PLAN =
  'brakes: {pins: [25, GPIO26], stallCurrent: 650 mA, supply: own, supplyCurrent: 3 A, capacitor: 1000 uF, clutch: 10 N, cutOff: yes}\n';

function problemOf(text: string): { at: string; seen: string; expected: string; next: string } {
  try {
    parseRig(text + INDEX, 'rig.yaml');
  } catch (error) {
    if (!(error instanceof TautlineError)) throw error;
    const { line, column, seen, expected, next } = error.problems[0]!;
    return { at: `${line}:${column}`, seen, expected, next };
  }
  throw new Error('was accepted');
}

describe('the cell of a rig file', () => {
  it('is read in mAh and A', () => {
    expect(parseRig(`cell: {capacity: 500 mAh, maxCurrent: 500 mA}\n${INDEX}`, 'r').rig.cell).toEqual({
      capacityMAh: 500,
      maxA: 0.5,
    });
    expect(parseRig(`cell: {capacity: 1.2 Ah}\n${INDEX}`, 'r').rig.cell).toEqual({ capacityMAh: 1200 });
    expect(parseRig(INDEX, 'r').rig.cell).toBeUndefined();
  });

  it.each([
    ['a capacity without a unit', 'cell: {capacity: 500}\n', '1:18', /500 without a unit/, /a capacity/],
    ['a current for a capacity', 'cell: {capacity: 500 mA}\n', '1:18', /which is a current/, /a capacity/],
    [
      'a capacity for a current',
      'cell: {capacity: 500 mAh, maxCurrent: 1 Ah}\n',
      '1:39',
      /which is a capacity/,
      /a current/,
    ],
    ['a cell of nothing', 'cell: {capacity: 0 mAh}\n', '1:18', /0 mAh/, /10 mAh to 50000 mAh/],
    ['a cell without its capacity', 'cell: {maxCurrent: 1 A}\n', '1:1', /capacity/, /a capacity/],
    ['a misspelt key', 'cell: {capacity: 500 mAh, maxCurent: 1 A}\n', '1:27', /maxCurent/, /maxCurrent/],
  ])('is refused for %s', (_, text, at, seen, expected) => {
    const problem = problemOf(text);
    expect(problem.at).toBe(at);
    expect(problem.seen).toMatch(seen);
    expect(problem.expected).toMatch(expected);
    expect(problem.next).not.toBe('');
  });
});

describe('the brakes of a rig file', () => {
  it('are read into the units of the rig', () => {
    const { rig, warnings } = parseRig(PLAN + INDEX, 'r');
    expect(rig.brakes).toEqual({
      pins: [25, 26],
      stallA: 0.65,
      supply: 'own',
      supplyA: 3,
      capacitorF: 1e-3,
      clutchN: 10,
      hasCutOff: true,
    });
    expect(warnings.map(({ seen }) => seen).filter((seen) => seen.startsWith('brakes:'))).toEqual([]);
  });

  it('need pins, current and supply only: what is not said is not there', () => {
    const { rig } = parseRig(`brakes: {pins: [25], stallCurrent: 0.65 A, supply: cell}\n${INDEX}`, 'r');
    expect(rig.brakes).toEqual({ pins: [25], stallA: 0.65, supply: 'cell', hasCutOff: false });
  });

  it('that could hurt are warned of, with all that they lack', () => {
    const text = `name: A\nbrakes: {pins: [25], stallCurrent: 0.65 A, supply: cell, clutch: 12 N, cutOff: no}\n${INDEX}`;
    const warning = parseRig(text, 'r').warnings.find(({ seen }) => seen.startsWith('brakes:'))!;
    expect(warning.line).toBe(2);
    expect(warning.seen).toBe(
      'brakes: a slip clutch that holds 12 N, no hardware cut-off, no supply of their own',
    );
    expect(warning.expected).toMatch(/people get hurt/);
  });

  it.each([
    ['clutch: 10 N, ', '', 'no slip clutch'],
    ['cutOff: yes', 'cutOff: no', 'no hardware cut-off'],
    ['supply: own', 'supply: cell', 'no supply of their own'],
  ])('are warned of when a single thing is missing: %s', (good, bad, lack) => {
    expect(PLAN).toContain(good);
    const { warnings } = parseRig(PLAN.replace(good, bad) + INDEX, 'r');
    expect(warnings.map(({ seen }) => seen)).toContain(`brakes: ${lack}`);
  });

  it.each([
    [
      'a current without a unit',
      'stallCurrent: 650 mA',
      'stallCurrent: 650',
      /650 without a unit/,
      /a current/,
    ],
    ['another supply', 'supply: own', 'supply: usb', /supply is "usb"/, /own, cell/],
    ['a cut-off that is neither', 'cutOff: yes', 'cutOff: maybe', /cutOff is "maybe"/, /^yes or no$/],
    ['a clutch in grams of torque', 'clutch: 10 N', 'clutch: 10 N·m', /which is a torque/, /a force/],
    ['six pins', 'pins: [25, GPIO26]', 'pins: [1, 2, 3, 4, 5, 6]', /pins/, /5/],
    ['no pin', 'pins: [25, GPIO26]', 'pins: []', /pins/, /1/],
    ['a pin taken by a finger', 'GPIO26', '33', /33, the pin of/, /a pin of its own/],
    ['a pin that cannot drive', 'GPIO26', '34', /34, which can only be an input/, /for a servo/],
  ])('are refused for %s', (_, good, bad, seen, expected) => {
    expect(PLAN).toContain(good);
    const problem = problemOf(PLAN.replace(good, bad));
    expect(problem.at).toMatch(/^1:/);
    expect(problem.seen).toMatch(seen);
    expect(problem.expected).toMatch(expected);
  });
});

describe('units of current and charge', () => {
  // SI prefixes
  it.each([
    ['650 mA', 'current', 0.65],
    ['3 A', 'current', 3],
    ['10 uA', 'current', 1e-5],
    ['500 mAh', 'charge', 500],
    ['1.2 Ah', 'charge', 1200],
    ['1000 uF', 'capacitance', 1e-3],
  ] as const)('%s', (text, dimension, value) => {
    expect(parseQuantity(text, dimension)).toEqual({ ok: true, value });
    expect(parseQuantity(formatQuantity(value, dimension), dimension)).toEqual({ ok: true, value });
  });
});
