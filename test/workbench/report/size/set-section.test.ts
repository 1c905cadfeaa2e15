import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../../sim/rig/default-rig.ts';
import { setDimensions } from '../../../../sim/sizing/unit/set-dimensions.ts';
import { sizeSet } from '../../../../sim/sizing/unit/set-size.ts';
import { setLines } from '../../../../workbench/cli/size/set-lines.ts';
import { setSection } from '../../../../workbench/report/size/set-section.ts';
import { printRows } from '../../../../workbench/report/size/set-words.ts';
import { unitDrawing } from '../../../../workbench/report/size/unit-drawing.ts';
import { columnsOf } from '../../../../workbench/report/wrap.ts';
import { readRig } from '../../../../workbench/rig/read-rig.ts';
import { evenly } from '../../../sim/evenly.ts';
import { drawnPoints } from '../svg-coordinates.ts';

const EXAMPLES = ['puppet-right', 'puppet-left', 'marionette-right', 'marionette-left'];
const HANDS = [0.9, 1.1] as const;
const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 300 : 25;

describe('the printed set in words', () => {
  it.each(EXAMPLES)('is whole for %s, fits 80 columns, and warns', (name) => {
    const size = sizeSet(readRig(`examples/${name}.yaml`).rig, HANDS);
    const html = setSection(size);
    const lines = setLines(size, 80);
    expect(`${html}${lines.join('\n')}`).not.toMatch(/NaN|undefined|Infinity|null|<script|src=|href=/);
    for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(80);
    for (const text of [html, lines.join(' ').replace(/ +/g, ' ')]) {
      expect(text).toContain('Deburr every edge');
      expect(text).toContain('Never tie the string in a loop round a finger');
    }
    const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('lists every piece once', () => {
    // five units of spool, bracket, lid and cap; plate, two keys, channel; nine rings and five caps
    const rows = printRows(sizeSet(defaultRig('esp32'), HANDS));
    expect(rows.map(({ name, pieces }) => `${pieces} ${name}`)).toEqual([
      '5 spool',
      '5 bracket',
      '5 lid',
      '5 pot-cap',
      '1 plate',
      '2 rail-key',
      '1 wire-channel',
      '9 ring-…',
      '5 cap-…',
    ]);
  });
});

describe('the drawing of a unit', () => {
  const rig = defaultRig('esp32');

  it('has spool, housing and scale bar in one scale', () => {
    const { units, plate } = setDimensions(rig, 1);
    const { unit } = units[0]!;
    const svg = unitDrawing(unit, plate, 740, 'x');
    const radius = Number(/<circle[^>]* r="([^"]+)" class="spool"/.exec(svg)![1]);
    const bar = /<line x1="12" y1="([^"]+)" x2="([^"]+)" y2="\1"/.exec(svg)!;
    const perMm = (Number(bar[2]) - 12) / 10;
    // flange 15 + 0.15 + 1.5
    expect(radius / perMm).toBeCloseTo(16.65, 1);
    const widths = [...svg.matchAll(/<rect[^>]* width="([^"]+)"[^>]* class="housing"/g)].map(([, w]) =>
      Number(w),
    );
    // cap 8.25, wall and cup 13.8, lid 1.6
    expect(widths.reduce((sum, w) => sum + w, 0) / perMm).toBeCloseTo(23.65, 1);
  });

  it('stays inside its frame, whatever spool and spring', () => {
    const build = fc.record({
      radiusMm: evenly(10, 60),
      stringMm: evenly(0.1, 0.6),
      springPlace: fc.constantFrom('beside' as const, 'inside' as const),
      width: fc.constantFrom(340, 740),
    });
    fc.assert(
      fc.property(build, ({ radiusMm, stringMm, springPlace, width }) => {
        const fingers = rig.fingers.map((finger) => ({
          ...finger,
          spoolRadiusMm: radiusMm,
          stringDiameterMm: stringMm,
        }));
        const { units, plate } = setDimensions({ ...rig, fingers }, 1, { springPlace, shaft: 'flat' });
        const svg = unitDrawing(units[0]!.unit, plate, width, 'x');
        const { width: wide, height, points } = drawnPoints(svg);
        expect(points.length).toBeGreaterThan(50);
        expect(points.filter(([x, y]) => !(x >= 0 && x <= wide && y >= 0 && y <= height))).toEqual([]);
      }),
      { numRuns },
    );
  });
});
