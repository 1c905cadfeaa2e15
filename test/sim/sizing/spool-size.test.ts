import { describe, expect, it } from 'vitest';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Finger, Rig } from '../../../sim/rig/rig.ts';
import { verdictOf } from '../../../sim/sizing/margin.ts';
import { sizeSpool } from '../../../sim/sizing/strings/spool-size.ts';
import { strokeMm } from '../../../sim/sizing/strings/stroke.ts';

function rigWith(change: (finger: Finger, rig: Rig) => void): { rig: Rig; finger: Finger } {
  const rig = defaultRig('esp32');
  const finger = rig.fingers[1]!;
  change(finger, rig);
  return { rig, finger };
}

const spoolOf = (change: (finger: Finger, rig: Rig) => void, hands: [number, number] = [1, 1]) => {
  const { rig, finger } = rigWith(change);
  return sizeSpool(rig, finger, hands);
};

describe('the spool', () => {
  it('is to be 14.3 mm for 51.66 mm and 80 % of 260 deg', () => {
    // 51.66/(0.8·260·pi/180) = 14.23, rounded up
    expect(spoolOf(() => {}).proposedRadiusMm).toBe(14.3);
  });

  it('of 15 mm uses 75.9 % of 260 deg with 51.66 mm: 197.3 deg, 198.4 with the winding that gets thinner', () => {
    const size = spoolOf(() => {});
    expect(size.travelShare).toBeCloseTo(0.759, 3);
    // 197.33 deg and 0.55 % (2 pi (r n - d n²/2) solved for n)
    expect(size.turnsDeg[1]).toBeCloseTo(198.42, 1);
    expect(size.oneGrooveGrowth).toBeCloseTo(0.0055, 4);
  });

  it('of 10 mm is refused: 113.8 % of the travel, and the shaft hits its end stop', () => {
    const size = spoolOf((finger) => {
      finger.spoolRadiusMm = 10;
    });
    expect(size.travelShare).toBeCloseTo(1.138, 3);
    expect(size.isStopped).toBe(true);
    const [travel] = size.margins;
    expect(verdictOf(travel!)).toBe('no');
    expect(travel).toMatchObject({
      allowed: 'at most 90.0 %; it hits the end stop',
      cure: 'take a spool of 14.3 mm radius',
    });
  });

  it('of 12 mm leaves less than 5 % at each end, with every part at its worst', () => {
    // 94.9 % nominal, 98.4 % of the shortest travel and 0.9 % by the winding
    const size = spoolOf((finger) => {
      finger.spoolRadiusMm = 12;
    });
    expect(size.travelShare).toBeCloseTo(0.949, 3);
    expect(size.worstShare).toBeCloseTo(0.992, 2);
    expect(size.deadShare).toBe(0);
    expect(verdictOf(size.margins[0]!)).toBe('no');
  });

  it('that it proposes leaves 5 % at each end even where 80 % of the nominal travel would not', () => {
    // 60 deg of travel that may be 10 deg less: 0.8/(5/6) = 96 %
    const short = (finger: Finger) => {
      finger.potentiometer = { ...finger.potentiometer, electricalTravelDeg: 60, mechanicalTravelDeg: 60 };
    };
    const radius = spoolOf(short).proposedRadiusMm;
    const again = spoolOf((finger) => {
      short(finger);
      finger.spoolRadiusMm = radius;
    });
    expect(again.worstShare).toBeLessThanOrEqual(0.9);
    expect(again.worstShare).toBeGreaterThan(0.89);
  });

  it('gives counts a degree and mm a count that belong together', () => {
    const size = spoolOf(() => {}, [0.9, 1]);
    expect(size.counts[1] / size.turnsDeg[1]).toBeCloseTo(size.countsPerDeg, 9);
    expect(size.counts[1] * size.mmPerCount).toBeCloseTo(51.662, 3);
    // the loaded divider is nearly straight: 0.9 of the stroke, 0.9 of the counts
    expect(size.counts[0] / size.counts[1]).toBeCloseTo(0.9, 1);
    // By hand: 198.4/260 of the 1.97 V between 0.19 and 2.19 V (with 100 k to ground), 1.24 counts a mV
    expect(size.counts[1]).toBeGreaterThan(1700);
    expect(size.counts[1]).toBeLessThan(1950);
  });

  it('needs string for the path, the stroke, two turns that stay, and two knots', () => {
    const { string } = spoolOf(() => {});
    // index of the mean hand: 68.12 + 81.82 mm (Buryanov & Kotiuk 2010), 50 mm to the spool
    expect(string.pathMm).toBeCloseTo(199.94, 2);
    // 199.94 + 51.66 + 2·2·pi·15 + 2·30 = 500.1, up to a whole centimetre
    expect(string.safetyMm).toBeCloseTo(188.496, 3);
    expect(string.cutMm).toBe(510);
  });

  it('takes all turns in one layer between its flanges, unless the string is thick', () => {
    const thin = spoolOf(() => {});
    expect(thin.layers).toBe(1);
    // 51.66/94.25 + 2 turns = 2.548: 3.548 strands of 0.3 mm and 0.2 mm
    expect(thin.oneLayerWidthMm).toBeCloseTo(1.264, 3);
    const thick = spoolOf((finger) => {
      finger.stringDiameterMm = 1.5;
    });
    expect(thick.layers).toBe(2);
    expect(thick.margins[2]).toMatchObject({ isSoft: true });
    expect(thick.margins[2]!.ratio).toBeLessThan(1);
  });
});

describe('measured joints', () => {
  const joints = { circumferencesMm: [75, 68.4, 57.4] as [number, number, number], guideHeightMm: 3 };

  it('grow with the hand while the guides keep their height', () => {
    const { rig, finger } = rigWith((f) => {
      f.joints = joints;
    });
    // By hand: arms (75, 68.4, 57.4)/2 pi + 3 = 14.937, 13.886, 12.135 over 90, 100, 66.67 deg
    const atOne = 14.937 * (Math.PI / 2) + 13.886 * (Math.PI / 1.8) + 12.135 * (Math.PI / 2.7);
    expect(strokeMm(rig, finger, 1)).toBeCloseTo(atOne, 1);
    const height = 3 * (Math.PI / 2 + Math.PI / 1.8 + Math.PI / 2.7);
    expect(strokeMm(rig, finger, 1.2)).toBeCloseTo(1.2 * (atOne - height) + height, 1);
  });

  it('were those of the rig’s own hand', () => {
    const { rig, finger } = rigWith((f, r) => {
      f.joints = joints;
      r.hand.scale = 0.9;
    });
    const mean = rigWith((f) => {
      f.joints = joints;
    });
    expect(strokeMm(rig, finger, 0.9)).toBeCloseTo(strokeMm(mean.rig, mean.finger, 1), 9);
  });
});
