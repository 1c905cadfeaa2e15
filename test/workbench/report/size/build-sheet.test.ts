import { describe, expect, it } from 'vitest';
import type { Rig } from '../../../../sim/rig/rig.ts';
import { partsList } from '../../../../sim/sizing/parts/parts-list.ts';
import { sizeParts } from '../../../../sim/sizing/parts/parts-size.ts';
import { defaultPrices } from '../../../../workbench/parts/default-prices.ts';
import { type BuildSheetInput, buildSheetHtml } from '../../../../workbench/report/size/build-sheet.ts';
import { partsSection } from '../../../../workbench/report/size/parts-section.ts';
import { readRig } from '../../../../workbench/rig/read-rig.ts';
import { fullRig } from './full-rig.ts';

const EVIL = `"'></title></style></script></svg><script>alert(1)</script><img src=x onerror=alert(1)>&`;
const { rig: puppet } = readRig('examples/puppet-right.yaml');

function sheet(rig: Rig, more: Partial<BuildSheetInput> = {}): string {
  return buildSheetHtml({ rig, parts: partsList(rig, 1), version: '0.0.0', ...more });
}

/** Text as a reader sees it. */
const read = (html: string) =>
  html
    .slice(html.indexOf('<body'))
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
/** Tags without their attributes' values, in order. */
const tags = (html: string) =>
  [...html.matchAll(/<\/?([a-z!][a-z0-9]*)/gi)].map((match) => match[0].toLowerCase());

describe('the build sheet', () => {
  const text = read(sheet(puppet));

  it('gives dimensions, wires and parts of each finger', () => {
    // 14·pi/2 + 11·100·pi/180 + 9·66.67·pi/180 = 51.66 mm; 5.3/1.767 = 3.0 turns
    expect(text).toMatch(/index 14 \/ 11 \/ 9 180°, 0\.08 15 0\.3 51\.7 3\.0 turns, 5\.3 mN·m/);
    expect(text).toMatch(/little GPIO36 10 kΩ 5\.6 kΩ 1 kΩ 100 kΩ 100 nF/);
    expect(text).toMatch(/6 potentiometer, 10 kΩ ±20 %, linear, 280°/);
    expect(text).toMatch(/resistor: 5 × 5\.6 kΩ ±5 % ; 5 × 1 kΩ ±5 % ; 5 × 100 kΩ ±5 %/);
  });

  it('takes what was worked out elsewhere over its own', () => {
    const other = read(
      sheet(puppet, { fingers: { index: { strokeMm: 60.04, preloadTurns: 4.25, cutMm: 510 } } }),
    );
    expect(other).toMatch(/index 14 \/ 11 \/ 9 180°, 0\.08 15 0\.3 × 510 60\.0 4\.3 turns, 5\.3 mN·m/);
  });

  it('puts electrics before strings, one finger before all, and the cell last', () => {
    const full = read(sheet(fullRig()));
    const order = [
      'No strings yet',
      'are not shorted',
      'Build one finger first',
      'Brakes come last',
      'Go over to the cell',
    ];
    const places = order.map((words) => full.indexOf(words));
    expect(Math.min(...places)).toBeGreaterThan(0);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    // 3.3 V ±3 % over 5.6 k, 10 k ±20 % and 1 k ±5 % with 100 k from the pin to ground: between the corners
    expect(text).toMatch(/stay between 0\.16 and 2\.33 V/);
  });

  it('warns of what can hurt, whether the rig has a cell or not', () => {
    for (const words of [
      /fumes/,
      /eye protection/i,
      /The tip burns/,
      /Never loop or knot a string tightly round a finger/,
      /quick release/,
      /headset sees no cables/,
      /If you add a cell/,
      /protection circuit/,
      /certified charger/,
      /Never charge while worn/,
      /No puncture, heat/,
      /Local rules come first/,
      /people qualified/,
    ]) {
      expect(text).toMatch(words);
    }
    const full = read(sheet(fullRig()));
    expect(full).toMatch(/The cell Lithium/);
    expect(full).toMatch(/let go without power/);
  });

  it('shows the settings of the rig, or says that none are chosen', () => {
    expect(text).toContain('None chosen yet');
    expect(read(sheet(readRig('examples/marionette-right.yaml').rig))).toContain(
      'Read each finger 8 times a frame',
    );
  });

  it('names wires beside the strings', () => {
    const full = read(sheet(fullRig()));
    expect(full).toMatch(/common line to GPIO32; select lines, lowest first, to GPIO25, GPIO26, GPIO27/);
    expect(full).toMatch(/thumb multiplexer input 0/);
    expect(full).toMatch(/Joystick: x to GPIO33, y to GPIO34/);
    expect(full).toMatch(/Buttons, each from its pin to ground: GPIO13, GPIO14, GPIO16, GPIO17/);
  });

  it('has the same tags whatever names it is given', () => {
    const input = (words: string): BuildSheetInput => ({
      rig: { ...puppet, name: words },
      parts: partsList(puppet, 1).map((part) => ({ ...part, name: words, spec: words })),
      version: words,
      file: words,
      cost: words,
      warnings: [words],
    });
    const html = buildSheetHtml(input(EVIL));
    expect(tags(html)).toEqual(tags(buildSheetHtml(input('word'))));
    expect(html).not.toContain('<script');
    expect(html).toContain("default-src 'none'");
  });
});

describe('parts in the report', () => {
  it('have totals, budget and a mark that prices are invented', () => {
    const size = sizeParts({ ...puppet, budget: 40 }, defaultPrices());
    const text = read(`<body>${partsSection(size)}`);
    expect(text).toMatch(/Prices in EUR, 2026-11-25: invented round figures/);
    expect(text).toMatch(
      /potentiometer 10 kΩ ±20 %, linear, 280° 6 9\.00 12 18\.00 5 for the fingers, 1 spare/,
    );
    expect(text).toContain(`Total EUR ${size.one.total.toFixed(2)} ${size.two.total.toFixed(2)}`);
    expect(text).toMatch(/Budget of 40\.00 EUR a hand: \d+\.\d\d EUR over for one/);
  });

  it('have the same tags whatever the price file says', () => {
    const of = (words: string) =>
      partsSection(
        sizeParts(
          { ...puppet, budget: 40 },
          { ...defaultPrices(), currency: words, date: words, source: words },
        ),
      );
    expect(tags(of(EVIL))).toEqual(tags(of('word')));
  });
});
