import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nominalVolts } from '../../../../sim/board/nominal-readings.ts';
import { defaultFinger, defaultRig } from '../../../../sim/rig/default-rig.ts';
import { FINGER_NAMES } from '../../../../sim/rig/rig.ts';
import { sizeSpool } from '../../../../sim/sizing/strings/spool-size.ts';
import { sizeWiring } from '../../../../sim/sizing/wiring/wiring-size.ts';
import { dividerDrawing } from '../../../../workbench/report/size/divider-drawing.ts';
import { scaleDrawing } from '../../../../workbench/report/size/scale-drawing.ts';

function draw(change: { radiusMm?: number; name?: (typeof FINGER_NAMES)[number]; width?: number }): string {
  const rig = defaultRig('esp32');
  const finger = defaultFinger(change.name ?? 'index', 'esp32', 33);
  finger.spoolRadiusMm = change.radiusMm ?? 15;
  rig.fingers = [finger];
  const spool = sizeSpool(rig, finger, [0.9, 1.1]);
  const [wiring] = sizeWiring(rig, [0.9, 1.1]).fingers;
  const { openV, closedV } = nominalVolts(rig, finger);
  const view = {
    finger,
    spool,
    wiring: wiring!,
    endsV: [openV, closedV] as const,
    handScale: 1,
    supplyV: 3.3,
    rangeV: [0.15, 2.45] as const,
  };
  return scaleDrawing(view, change.width ?? 910, 'x');
}

/** Numbers of an attribute over all elements of a class. */
function numbers(svg: string, kind: string, attribute: string): number[] {
  return [...svg.matchAll(/<\w+[^>]*>/g)]
    .map(([tag]) => tag)
    .filter((tag) => new RegExp(`class="${kind}"`).test(tag))
    .map((tag) => Number(new RegExp(` ${attribute}="([^"]+)"`).exec(tag)![1]));
}

describe('the drawing to scale', () => {
  it('draws spool and scale bar in one scale', () => {
    for (const radiusMm of [10, 15, 22]) {
      const svg = draw({ radiusMm });
      const [x1, x2] = [numbers(svg, 'axis', 'x1')[0]!, numbers(svg, 'axis', 'x2')[0]!];
      // the bar is 10 mm long
      expect(numbers(svg, 'spool', 'r')[0]! / ((x2 - x1) / 10)).toBeCloseTo(radiusMm, 0);
    }
  });

  it('says what the largest hand uses of the travel', () => {
    // 51.662·1.1/15 rad over 260 deg less a share of 10/280: 86.6 %, and 0.6 % as the winding grows thinner
    expect(draw({})).toContain('87 % of the travel');
    expect(draw({ radiusMm: 10 })).toMatch(/class="used is-bad"/);
  });

  it.each(FINGER_NAMES)('stays inside its frame: %s', (name) => {
    for (const width of [340, 910]) {
      const svg = draw({ name, width });
      const [, , w, h] = /viewBox="([^"]+)"/.exec(svg)![1]!.split(' ').map(Number);
      for (const [, x, y] of svg.matchAll(/[ML](-?[\d.]+)[ ,](-?[\d.]+)/g)) {
        expect(Number(x)).toBeGreaterThanOrEqual(0);
        expect(Number(x)).toBeLessThanOrEqual(w!);
        expect(Number(y)).toBeGreaterThanOrEqual(0);
        expect(Number(y)).toBeLessThanOrEqual(h!);
      }
    }
  });

  it('keeps the texts of a divider apart', () => {
    const volts = fc.tuple(fc.integer({ min: 0, max: 330 }), fc.integer({ min: 0, max: 330 }));
    const ohm = fc.constantFrom(0, 100, 560, 1000, 5600, 22_000);
    fc.assert(
      fc.property(volts, volts, ohm, ohm, (ends, corners, topOhm, bottomOhm) => {
        const view = {
          supplyV: 3.3,
          topOhm,
          potOhm: 10_000,
          bottomOhm,
          endsV: [ends[0] / 100, ends[1] / 100] as const,
          cornersV: [Math.min(...corners) / 100, Math.max(...corners) / 100] as const,
          rangeV: [0.15, 2.45] as const,
        };
        const svg = dividerDrawing(view, { left: 0, top: 30, right: 300, bottom: 300 }).join('');
        const right = [...svg.matchAll(/<text x="168" y="([\d.-]+)"/g)].map(([, y]) => Number(y));
        expect(right).toHaveLength(6);
        right.sort((a, b) => a - b);
        // 12 px letters
        for (let i = 1; i < 6; i++) expect(right[i]! - right[i - 1]!).toBeGreaterThan(13);
      }),
    );
  });
});
