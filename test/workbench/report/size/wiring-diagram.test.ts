import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARD_IDS } from '../../../../firmware/boards/board.ts';
import { defaultRig } from '../../../../sim/rig/default-rig.ts';
import type { Rig } from '../../../../sim/rig/rig.ts';
import { proposePins } from '../../../../sim/sizing/pins/pin-plan.ts';
import { sizePins } from '../../../../sim/sizing/pins/pins-size.ts';
import { wantedOf } from '../../../../sim/sizing/pins/wanted-pins.ts';
import { pinsSection } from '../../../../workbench/report/size/pins-section.ts';
import { diagramHeight, wiringDiagram } from '../../../../workbench/report/size/wiring-diagram.ts';
import { anyWanted } from '../../../sim/sizing/any-pins.ts';
import { drawnPoints } from '../svg-coordinates.ts';
import { type Box, crosses, drawnStrokes, drawnTexts, overlaps } from './drawn-texts.ts';

const RUNS = { numRuns: process.env.TAUTLINE_VERIFY === '1' ? 1000 : 50 };

/** Any value that a rig file may give a part, three digits long. */
const ohm = fc.oneof(
  fc.constant(0),
  fc
    .tuple(fc.integer({ min: 100, max: 999 }), fc.nat(4))
    .map(([digits, decade]) => digits * 10 ** (decade - 1)),
);
const farad = fc.tuple(fc.nat(999), fc.integer({ min: -14, max: -8 })).map(([d, e]) => d * 10 ** e);

/** Any wanted set as a rig, with any values at its strings. */
const anyRig = fc
  .tuple(
    fc.constantFrom(...BOARD_IDS),
    anyWanted,
    ohm,
    ohm,
    ohm,
    farad,
    fc.double({ min: 0.01, max: 1, noNaN: true }),
  )
  .map(([board, wanted, topOhm, bottomOhm, pullDownOhm, capacitorF, divider]): [Rig, boolean] => {
    const rig = defaultRig(board);
    rig.fingers = rig.fingers.filter(({ name }) => wanted.fingers.includes(name));
    for (const finger of rig.fingers)
      Object.assign(finger.wiring, { topOhm, bottomOhm, pullDownOhm, capacitorF });
    if (wanted.joystick) rig.joystick = { xPin: 33, yPin: 34 };
    if (wanted.rail) rig.rail = { pin: 36, divider };
    if (wanted.serialOut) rig.frameLink = { txPin: 17, baud: 230_400 };
    if (wanted.servos > 0) {
      rig.brakes = {
        pins: [18, 19, 21, 22, 23].slice(0, wanted.servos),
        stallA: 0.6,
        supply: 'own',
        hasCutOff: false,
      };
    }
    if (wanted.buttons > 0) rig.buttons = [13, 16, 4, 27].slice(0, wanted.buttons);
    return [rig, wanted.battery];
  });

function pairsOf(boxes: Box[]): string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => overlaps(a, b))
      .map((b) => `${a.text} | ${b.text}`),
  );
}

describe('the wiring diagram of any rig', () => {
  it.each([350, 740])(
    'has no texts on each other or on a line, and keeps inside its frame, at %i',
    (width) => {
      let drawn = 0;
      fc.assert(
        fc.property(anyRig, ([rig, battery]) => {
          const { plan } = proposePins(rig.board, { ...wantedOf(rig), battery });
          if (!plan) return;
          drawn++;
          const svg = wiringDiagram(rig, plan, width, 'any');
          const texts = drawnTexts(svg);
          expect(texts.length).toBeGreaterThan(8);
          expect(pairsOf(texts)).toEqual([]);
          const strokes = drawnStrokes(svg);
          const crossed = texts.filter((box) => strokes.some((stroke) => crosses(stroke, box)));
          expect(crossed.map(({ text }) => text)).toEqual([]);
          const height = diagramHeight(rig, plan, width);
          const frame = drawnPoints(svg);
          expect([frame.width, frame.height]).toEqual([width, height]);
          expect(frame.points.filter(([x, y]) => x < 0 || x > width || y < 0 || y > height)).toEqual([]);
          expect(texts.filter((box) => box.left < 0 || box.right > width || box.bottom > height)).toEqual([]);
        }),
        RUNS,
      );
      expect(drawn).toBeGreaterThan(RUNS.numRuns / 3);
    },
  );
});

describe('the wiring diagram', () => {
  const full = (): Rig => {
    const rig = defaultRig('esp32');
    rig.joystick = { xPin: 33, yPin: 34 };
    rig.rail = { pin: 35, divider: 0.5 };
    rig.buttons = [18, 19];
    rig.frameLink = { txPin: 17, baud: 230_400 };
    return rig;
  };

  it('shows every part with its value and every used pin', () => {
    const rig = full();
    const { plan } = proposePins('esp32', { ...wantedOf(rig), battery: true });
    const texts = drawnTexts(wiringDiagram(rig, plan!, 350, 'any')).map(({ text }) => text);
    const count = (text: string) => texts.filter((one) => one === text).length;
    expect(count('5.6 kΩ')).toBe(5);
    expect(count('1 kΩ')).toBe(5);
    // five pull-downs and the two resistors at the cell
    expect(count('100 kΩ')).toBe(7);
    // five strings, two axes, rail, cell, and the multiplexer's supply
    expect(count('100 nF')).toBe(10);
    for (const { pin } of plan!.pins) expect(texts).toContain(`IO${pin}`);
    for (const name of ['thumb', 'little', 'joystick', 'rail', 'cell', 'button 2', 'RX of the other board']) {
      expect(count(name), name).toBe(1);
    }
    for (const name of ['Y0', 'Y4', 'Y7', 'S0', 'S2', 'COM', 'VEE', 'E']) expect(count(name), name).toBe(1);
  });

  it('joins the two blocks by the names of each other’s pins', () => {
    const rig = full();
    const { plan } = proposePins('esp32', wantedOf(rig));
    const texts = drawnTexts(wiringDiagram(rig, plan!, 740, 'any')).map(({ text }) => text);
    for (const { key, pin } of plan!.pins.filter(({ role }) => role === 'select')) {
      expect(texts).toContain(`multiplexer S${key.at(-1)}`);
      expect(texts).toContain(`to IO${pin} of the board`);
    }
  });
});

describe('the report’s section on pins', () => {
  it('has the diagram for wide and narrow screens, the whole table, and each conflict with its cure', () => {
    const rig = defaultRig('esp32');
    rig.buttons = [12];
    const html = pinsSection(rig, sizePins(rig));
    expect(html).toContain('viewBox="0 0 740 ');
    expect(html).toContain('viewBox="0 0 350 ');
    expect(html.match(/<tr>/g)).toHaveLength(1 + 27);
    expect(html).toMatch(/Button 1 is on GPIO12.*micropython#6149.*Cure: move the wire to GPIO18/);
    expect(html).toMatch(/button 1: from GPIO12, where the rig file has it, to IO18/);
    expect(html).not.toMatch(/<script|https?:/);
  });

  it('says why when there is no plan', () => {
    const rig = defaultRig('esp32-c3');
    rig.joystick = { xPin: 0, yPin: 1 };
    rig.rail = { pin: 3, divider: 0.5 };
    const html = pinsSection(rig, sizePins(rig, true));
    expect(html).toMatch(/There is no pin plan: even with a multiplexer 5 voltages/);
    expect(html).not.toContain('<svg');
  });
});
