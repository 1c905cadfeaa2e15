import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../../sim/rig/default-rig.ts';
import { sizeStrings } from '../../../../sim/sizing/strings/strings-size.ts';
import { stringsSection } from '../../../../workbench/report/size/strings-section.ts';
import { readRig } from '../../../../workbench/rig/read-rig.ts';
import { evenly } from '../../../sim/evenly.ts';
import { drawnPoints } from '../svg-coordinates.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 300 : 25;
const drawings = (html: string) => html.match(/<svg[\s\S]*?<\/svg>/g) ?? [];

describe('the section on string, spool, spring and guides', () => {
  it.each(['puppet-right', 'puppet-left', 'marionette-right', 'marionette-left'])(
    'is whole for %s',
    (name) => {
      const { rig } = readRig(`examples/${name}.yaml`);
      const html = stringsSection(sizeStrings(rig, [0.9 * rig.hand.scale, 1.1 * rig.hand.scale]));
      expect(html.match(/<section id="(spool|spring|guides)"/g)).toHaveLength(3);
      // three plots, each for wide and for narrow screens
      expect(drawings(html)).toHaveLength(6);
      expect(html).not.toMatch(/NaN|undefined|Infinity|null|<script|src=|href=/);
      const ids = [...html.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
      expect(new Set(ids).size).toBe(ids.length);
    },
  );

  it('draws inside its frames, whatever the build', () => {
    const build = fc.record({
      radiusMm: evenly(4, 40),
      openMNm: evenly(0.1, 60),
      perTurnMNm: fc.oneof(fc.constant(0), evenly(0.01, 30)),
      hysteresis: evenly(0, 0.5),
      dragMNm: fc.oneof(fc.constant(0), evenly(0, 30)),
      friction: evenly(0, 1),
      playMm: evenly(0, 5),
      backlashDeg: evenly(0, 5),
    });
    fc.assert(
      fc.property(build, (made) => {
        const rig = defaultRig('esp32');
        rig.fingers = rig.fingers.slice(0, 2);
        const finger = rig.fingers[1]!;
        finger.spoolRadiusMm = made.radiusMm;
        finger.spring = {
          openTorqueMNm: made.openMNm,
          perTurnMNm: made.perTurnMNm,
          hysteresis: made.hysteresis,
        };
        finger.potentiometer.dragMNm = made.dragMNm;
        finger.guides = [{ wrapDeg: 180, friction: made.friction }];
        finger.playMm = made.playMm;
        finger.backlashDeg = made.backlashDeg;
        const html = stringsSection(sizeStrings(rig, [0.9, 1.1]));
        expect(html).not.toMatch(/NaN|undefined|Infinity/);
        for (const svg of drawings(html)) {
          const { width, height, points } = drawnPoints(svg);
          expect(points.length).toBeGreaterThan(5);
          expect(points.filter(([x, y]) => !(x >= 0 && x <= width && y >= 0 && y <= height))).toEqual([]);
        }
      }),
      { numRuns },
    );
  });
});
