import { describe, expect, it } from 'vitest';
import { sizeStrings } from '../../../../sim/sizing/strings/strings-size.ts';
import { stringsLines } from '../../../../workbench/cli/size/strings-lines.ts';
import { columnsOf } from '../../../../workbench/report/wrap.ts';
import { parseRig, readRig } from '../../../../workbench/rig/read-rig.ts';

const EXAMPLES = ['puppet-right', 'puppet-left', 'marionette-right', 'marionette-left'];
const linesOf = (each: string, columns = 80) =>
  stringsLines(
    sizeStrings(parseRig(`eachFinger:\n${each}\nfingers:\n  index: {pin: 33}\n`, 'rig.yaml').rig, [0.9, 1.1]),
    columns,
  );
const textOf = (each: string) => linesOf(each).join(' ').replace(/\s+/g, ' ');

describe('string, spool, spring and guides on the terminal', () => {
  it.each(EXAMPLES)('fit 80 and 100 columns for %s', (name) => {
    const { rig } = readRig(`examples/${name}.yaml`);
    for (const columns of [80, 100]) {
      const lines = stringsLines(sizeStrings(rig, [0.9 * rig.hand.scale, 1.1 * rig.hand.scale]), columns);
      for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(columns);
      expect(lines).toEqual(expect.arrayContaining(['String and spool', 'Spring', 'Guides and lost motion']));
      expect(lines.join(' ')).not.toMatch(/NaN|undefined|Infinity|null/);
    }
  });

  it('tell alike fingers together', () => {
    const { rig } = readRig('examples/puppet-right.yaml');
    const lines = stringsLines(sizeStrings(rig, [0.9, 1.1]), 100);
    expect(lines.find((line) => line.startsWith('  index to little  46.5-56.8 mm'))).toBeDefined();
    // 2.66 to 2.87 turns: see the spring's own tests
    expect(
      lines.find((line) => /index to little\s+3\.00 turns\s+2\.66-7\.37\s+2\.66-2\.87/.test(line)),
    ).toBeDefined();
  });

  it('say that it will not retract', () => {
    expect(textOf('  potentiometer: {drag: 100 gf·cm}')).toMatch(
      /Index: will not retract\. The spring winds in with 4\.77 mN·m, a stiff potentiometer holds with 12\.75 mN·m\./,
    );
  });

  it('say over which part nothing moves, and how long a string hangs slack', () => {
    expect(textOf('  potentiometer: {electricalTravel: 160 deg}')).toMatch(
      /nothing moves over the first and last 15 % of the stroke/,
    );
    expect(textOf('  spring: {openTorque: 3 mN·m}')).toMatch(
      /opened in 90 ms the string hangs slack for \d+ ms, by \d+\.\d mm/,
    );
  });

  it('say how far a strip is bent', () => {
    expect(
      textOf('  spring: {strip: {width: 5 mm, thickness: 0.15 mm, length: 1 m}, preload: 3 turns}'),
    ).toMatch(
      /the strip is bent to 3\d\d MPa and turns 3\.6 times of 12\.5 in a proposed barrel of 10\.3 mm/,
    );
  });

  it('leave the datasheet’s drag out where pulls were measured', () => {
    const pulls = '[{stringOut: 0 mm, in: 0.30 N, out: 0.38 N}, {stringOut: 50 mm, in: 0.36 N, out: 0.44 N}]';
    expect(textOf(`  spring: {pulls: ${pulls}}`)).not.toMatch(/datasheet/);
    expect(textOf('  play: 0.3 mm')).toMatch(/up to 2\.28 mN·m \(23 gf·cm\)/);
  });
});
