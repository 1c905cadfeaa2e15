import { describe, expect, it } from 'vitest';
import { FINGER_POINTS_LENGTH, fingerPoints, flexionQuaternion } from '../../../sim/hand/finger-pose.ts';
import { fingerLengthMm, PHALANGES, phalanges } from '../../../sim/hand/phalanges.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';

describe('bone lengths', () => {
  it('add up to the published finger lengths', () => {
    // Buryanov & Kotiuk 2010 table I, second-hand transcription: knuckle to end of the flesh.
    const published = [58.91, 81.82, 92.31, 88.27, 70.54];
    const lengths = FINGER_NAMES.map((name) => fingerLengthMm(name, 1));
    lengths.forEach((length, i) => {
      expect(length).toBeCloseTo(published[i], 9);
    });
  });

  it('grow with the hand', () => {
    expect(phalanges('index', 1.2).proximalMm).toBeCloseTo(47.736, 9);
    expect(fingerLengthMm('index', 0.8)).toBeCloseTo(65.456, 9);
  });
});

describe('planar finger pose', () => {
  // Forward, up of the tip: planar forward kinematics of the lengths above (computed with other software).
  it.each([
    [0, 0, 0, 81.82, 0],
    [90, 0, 0, 0, -81.82],
    [90, 90, 0, -42.04, -39.78],
    [45, 60, 40, 6.232, -61.023],
    [90, 100, 66.667, -26.574, -16.764],
  ])('puts the index tip of (%d, %d, %d) deg at (%d, %d) mm', (mcp, pip, dip, forwardMm, upMm) => {
    const out = new Float64Array(FINGER_POINTS_LENGTH);
    fingerPoints(mcp, pip, dip, PHALANGES.index, out);
    expect(out[6]).toBeCloseTo(forwardMm, 3);
    expect(out[7]).toBeCloseTo(upMm, 3);
  });

  it('flexes by turning -90 deg about +X, whichever hand', () => {
    // Axes: W3C WebXR Hand Input and Khronos XrHandJointEXT; (-sin 45, 0, 0, cos 45).
    const q = new Float64Array(4);
    flexionQuaternion(90, q);
    expect(q[0]).toBeCloseTo(-Math.SQRT1_2, 12);
    expect([q[1], q[2]]).toEqual([0, 0]);
    expect(q[3]).toBeCloseTo(Math.SQRT1_2, 12);
  });
});
