import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flexionDeg, thumbFlexionDeg } from '../../../sim/hand/closure.ts';
import { FINGER_POINTS_LENGTH, fingerPoints } from '../../../sim/hand/finger-pose.ts';
import { phalanges } from '../../../sim/hand/phalanges.ts';
import { clampJointDeg, type JointIndex } from '../../../sim/hand/ranges.ts';
import { tremorDeg } from '../../../sim/hand/tremor.ts';
import { FINGER_NAMES } from '../../../sim/rig/rig.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 5000 : 300;
const joint = fc.constantFrom<JointIndex>(0, 1, 2);
const anyNumber = fc.oneof(evenly(-3, 3), fc.double(), fc.constantFrom(NaN, Infinity, -Infinity, 1e308, -0));

describe('hand properties', () => {
  it('keeps every joint inside the AAOS range and 10 deg of grace, whatever the closure', () => {
    // AAOS: MCP 45 extension 90 flexion, PIP 0-100, DIP 0-90; thumb CMC 20/15, MCP 0/50, IP 20/80.
    const finger = [
      [-55, 100],
      [-10, 110],
      [-10, 100],
    ];
    const thumb = [
      [-30, 25],
      [-10, 60],
      [-30, 90],
    ];
    fc.assert(
      fc.property(anyNumber, joint, fc.boolean(), (closure, j, isThumb) => {
        const deg = clampJointDeg(isThumb, j, isThumb ? thumbFlexionDeg(closure, j) : flexionDeg(closure, j));
        const [least, most] = (isThumb ? thumb : finger)[j];
        expect(deg).toBeGreaterThanOrEqual(least);
        expect(deg).toBeLessThanOrEqual(most);
      }),
      { numRuns },
    );
  });

  it('leaves angles inside the range alone', () => {
    fc.assert(
      fc.property(evenly(0, 1), joint, fc.boolean(), (closure, j, isThumb) => {
        const deg = isThumb ? thumbFlexionDeg(closure, j) : flexionDeg(closure, j);
        expect(clampJointDeg(isThumb, j, deg)).toBe(deg);
      }),
      { numRuns },
    );
  });

  it('keeps bone lengths to 1e-9 mm in any pose', () => {
    const deg = evenly(-60, 120);
    const scale = evenly(0.8, 1.2);
    fc.assert(
      fc.property(deg, deg, deg, scale, fc.constantFrom(...FINGER_NAMES), (a, b, c, size, name) => {
        const bones = phalanges(name, size);
        const p = new Float64Array(FINGER_POINTS_LENGTH);
        fingerPoints(a, b, c, bones, p);
        const drawn = [bones.proximalMm, bones.middleMm, bones.distalMm + bones.softTipMm];
        drawn.forEach((length, i) => {
          const k = 2 * i;
          expect(Math.abs(Math.hypot(p[k + 2] - p[k], p[k + 3] - p[k + 1]) - length)).toBeLessThan(1e-9);
        });
      }),
      { numRuns },
    );
  });

  it('keeps tremor within its amplitude', () => {
    const real = (max: number) => evenly(0, max);
    fc.assert(
      fc.property(real(100), real(2), real(12), real(7), (timeS, amplitude, hz, phase) => {
        expect(Math.abs(tremorDeg(timeS, amplitude, hz, phase))).toBeLessThanOrEqual(amplitude);
      }),
      { numRuns },
    );
  });
});
