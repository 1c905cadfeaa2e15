import { describe, expect, it } from 'vitest';
import { phalanges } from '../../../sim/hand/phalanges.ts';
import { bonesOnString, stringPath } from '../../../sim/hand/string-path.ts';

const INDEX = bonesOnString(phalanges('index', 1));

/** Length of the string over arcs and straight pieces, counted from the first joint. */
function lengthMm({ joints }: ReturnType<typeof stringPath>): number {
  return joints.reduce((sum, joint, i) => {
    const next = joints[i + 1];
    const straight = next ? Math.hypot(INDEX[i]!, next.armMm - joint.armMm) : 0;
    return sum + joint.armMm * (joint.toRad - joint.fromRad) + straight;
  }, 0);
}

describe('the way of the string over a finger', () => {
  it.each([
    [[0, 0, 0], 81.82, 0],
    [[90, 0, 0], 0, -81.82],
    [[90, 90, 0], -42.04, -39.78],
    [[45, 60, 40], 6.232, -61.023],
  ])('the tip of the index finger at %j deg is where its bones put it', (angles, forward, up) => {
    // computed by hand from 39.78, 22.38 and 15.82 + 3.84 mm (Buryanov & Kotiuk 2010, second-hand)
    const { tip } = stringPath(INDEX, angles, [14, 11, 9]);
    expect(tip.forwardMm).toBeCloseTo(forward, 2);
    expect(tip.upMm).toBeCloseTo(up, 2);
  });

  it('is 51.662 mm longer over a closed finger than over a straight one', () => {
    // 14·90 + 11·100 + 9·66.667 deg, in rad
    const way = (angles: number[]) => lengthMm(stringPath(INDEX, angles, [14, 11, 9]));
    expect(way([90, 100, 66.6667]) - way([0, 0, 0])).toBeCloseTo(51.662, 3);
  });

  it('begins at the wrist end of the thumb’s metacarpal', () => {
    expect(bonesOnString(phalanges('thumb', 1))).toEqual([46.22, 31.57, 21.67 + 5.67]);
  });
});
