import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DRAG_SPREAD } from '../../../sim/pot/drag.ts';
import { defaultRig } from '../../../sim/rig/default-rig.ts';
import type { Finger, Rig } from '../../../sim/rig/rig.ts';
import { fastestTautS, leastTautTorqueMNm, simulateOpening } from '../../../sim/sizing/strings/opening.ts';
import {
  openingInertiaMNm,
  type PreloadLimit,
  preloadLimits,
} from '../../../sim/sizing/strings/preload-limits.ts';
import { isClash, preloadRange } from '../../../sim/sizing/strings/preload-range.ts';
import { sizeSpool } from '../../../sim/sizing/strings/spool-size.ts';
import { sizeSpring } from '../../../sim/sizing/strings/spring-size.ts';
import { strokeMm } from '../../../sim/sizing/strings/stroke.ts';
import { returnFactor, stringTensionN } from '../../../sim/spool/force.ts';
import { springTorqueMNm } from '../../../sim/spool/spring.ts';
import { fingertipTensionN, frictionExponent } from '../../../sim/string/capstan.ts';
import { largestPullN } from '../../../sim/string/pull.ts';
import { evenly } from '../evenly.ts';

const numRuns = process.env.TAUTLINE_VERIFY === '1' ? 2000 : 60;

/** Builds from weak to strong; the potentiometer drags at most what its datasheet allows. */
const build = fc.record({
  radiusMm: evenly(8, 25),
  threadMm: evenly(0.1, 0.8),
  openMNm: evenly(0.5, 15),
  perTurnMNm: evenly(0.2, 4),
  hysteresis: evenly(0, 0.3),
  dragMNm: evenly(0.2, 9.8),
  wrapDeg: evenly(0, 360),
  friction: evenly(0, 0.3),
  armMm: evenly(8, 18),
});
type Build = typeof build extends fc.Arbitrary<infer T> ? T : never;

function rigOf(made: Build): { rig: Rig; finger: Finger } {
  const rig = defaultRig('esp32');
  const finger = rig.fingers[1]!;
  finger.spoolRadiusMm = made.radiusMm;
  finger.stringDiameterMm = made.threadMm;
  finger.spring = {
    openTorqueMNm: made.openMNm,
    perTurnMNm: made.perTurnMNm,
    hysteresis: made.hysteresis,
  };
  finger.potentiometer.dragMNm = made.dragMNm;
  finger.guides = [{ wrapDeg: made.wrapDeg, friction: made.friction }];
  finger.momentArmsMm = [made.armMm, 0.8 * made.armMm, 0.6 * made.armMm];
  return { rig, finger };
}

const springOf = (made: Build) => {
  const { rig, finger } = rigOf(made);
  return sizeSpring(rig, finger, [1, 1]);
};

describe('a larger hand', () => {
  it('never needs a smaller spool nor less string, with arms or with measured joints', () => {
    const measured = fc.option(
      fc.record({
        circumferencesMm: fc.tuple(evenly(40, 110), evenly(40, 80), evenly(35, 70)),
        guideHeightMm: evenly(0, 10),
      }),
    );
    fc.assert(
      fc.property(build, measured, evenly(0.6, 1.5), evenly(0, 0.4), (made, joints, size, more) => {
        const { rig, finger } = rigOf(made);
        if (joints) finger.joints = joints;
        const small = sizeSpool(rig, finger, [size, size]);
        const large = sizeSpool(rig, finger, [size, size + more]);
        expect(large.proposedRadiusMm).toBeGreaterThanOrEqual(small.proposedRadiusMm);
        expect(large.string.cutMm).toBeGreaterThanOrEqual(small.string.cutMm);
        expect(large.worstShare).toBeGreaterThanOrEqual(small.worstShare);
      }),
      { numRuns },
    );
  });
});

describe('a proposed spool', () => {
  it('leaves 5 % at both ends in the worst case, and one of 0.2 mm less does not leave 10 and 5', () => {
    fc.assert(
      fc.property(build, evenly(40, 300), evenly(0, 60), (made, electricalDeg, dead) => {
        const { rig, finger } = rigOf(made);
        Object.assign(finger.potentiometer, {
          electricalTravelDeg: electricalDeg,
          mechanicalTravelDeg: electricalDeg + dead,
        });
        const { proposedRadiusMm } = sizeSpool(rig, finger, [1, 1]);
        const share = (radiusMm: number) => {
          const size = sizeSpool(rig, { ...finger, spoolRadiusMm: radiusMm }, [1, 1]);
          return [size.travelShare / 0.8, size.worstShare / 0.9];
        };
        for (const part of share(proposedRadiusMm)) expect(part).toBeLessThanOrEqual(1 + 1e-9);
        expect(Math.max(...share(proposedRadiusMm - 0.2))).toBeGreaterThan(1);
      }),
      { numRuns },
    );
  });
});

describe('more friction', () => {
  it('of potentiometer, spring or guides never helps the return', () => {
    fc.assert(
      fc.property(build, evenly(0, 3), evenly(0, 0.1), evenly(0, 0.1), (made, drag, hysteresis, friction) => {
        const before = springOf(made);
        const after = springOf({
          ...made,
          dragMNm: made.dragMNm + drag,
          hysteresis: made.hysteresis + hysteresis,
          friction: made.friction + friction,
        });
        expect(after.returnFactor).toBeLessThanOrEqual(before.returnFactor);
        expect(after.staticFactor!).toBeLessThanOrEqual(before.staticFactor!);
        expect(after.pullsN.openIn).toBeLessThanOrEqual(before.pullsN.openIn);
        // null: it never stays taut
        const tautAfter = after.fastestTautMs ?? Number.POSITIVE_INFINITY;
        expect(tautAfter).toBeGreaterThanOrEqual(before.fastestTautMs ?? Number.POSITIVE_INFINITY);
      }),
      { numRuns },
    );
  });
});

describe('the shortest taut opening', () => {
  it('is where the simulated string starts to hang slack', () => {
    fc.assert(
      fc.property(build, (made) => {
        const { finger, rig } = rigOf(made);
        const stroke = strokeMm(rig, finger, 1);
        const timeS = fastestTautS(finger, stroke, made.dragMNm);
        fc.pre(timeS !== undefined && timeS > 0.02 && timeS < 1);
        expect(simulateOpening(finger, stroke, made.dragMNm, 1.03 * timeS!).isTaut).toBe(true);
        expect(simulateOpening(finger, stroke, made.dragMNm, 0.93 * timeS!).isTaut).toBe(false);
      }),
      { numRuns },
    );
  });

  it('takes the torque that is worked out for its time', () => {
    fc.assert(
      fc.property(build, evenly(0.05, 0.4), (made, timeS) => {
        const { finger, rig } = rigOf(made);
        const stroke = strokeMm(rig, finger, 1);
        const openTorqueMNm = leastTautTorqueMNm(finger, stroke, made.dragMNm, timeS);
        const at = (factor: number) =>
          fastestTautS(
            { ...finger, spring: { ...finger.spring, openTorqueMNm: factor * openTorqueMNm } },
            stroke,
            made.dragMNm,
          ) ?? Number.POSITIVE_INFINITY;
        expect(at(1.001)).toBeLessThanOrEqual(timeS);
        expect(at(0.999)).toBeGreaterThan(timeS);
      }),
      { numRuns },
    );
  });
});

/** Whether a build keeps to a limit, by the models that a limit was not worked out with. */
function keeps(made: Build, id: PreloadLimit['id']): boolean {
  const { rig, finger } = rigOf(made);
  const stroke = strokeMm(rig, finger, 1);
  const stiffMNm = made.dragMNm * DRAG_SPREAD;
  const windingInMNm = springTorqueMNm(0, made.openMNm, made.perTurnMNm, made.hysteresis, -1);
  switch (id) {
    case 'return':
      return returnFactor(windingInMNm, stiffMNm, openingInertiaMNm(finger, stroke)) >= 1;
    case 'taut':
      return (fastestTautS(finger, stroke, stiffMNm) ?? 9) <= 0.2;
    case 'held': {
      const tensionN = stringTensionN(windingInMNm, stiffMNm, made.radiusMm, -1);
      return fingertipTensionN(tensionN, frictionExponent(finger.guides), -1) >= 0.2;
    }
    case 'tiring':
      return largestPullN(finger, stroke) <= 0.75;
    case 'refused':
      return largestPullN(finger, stroke) <= 1.5;
    default:
      throw new Error(id);
  }
}

describe('the preload range', () => {
  it('has bounds that keep their limit on one side and break it on the other', () => {
    fc.assert(
      fc.property(build, (made) => {
        const { finger, rig } = rigOf(made);
        for (const limit of preloadLimits(finger, strokeMm(rig, finger, 1))) {
          // A most below nothing is broken by every spring.
          if (limit.openTorqueMNm < 0.1) continue;
          const at = (factor: number) => keeps({ ...made, openMNm: factor * limit.openTorqueMNm }, limit.id);
          expect([limit.id, at(1.001), at(0.999)]).toEqual([limit.id, limit.isLeast, !limit.isLeast]);
        }
      }),
      { numRuns },
    );
  });

  it('keeps all its limits inside, and breaks one just outside either end', () => {
    fc.assert(
      fc.property(build, evenly(0, 1), (made, share) => {
        const { finger, rig } = rigOf(made);
        const range = preloadRange(finger, strokeMm(rig, finger, 1));
        const hard = ['return', 'taut', 'refused'] as const;
        const comfort = [...hard, 'tiring'] as const;
        for (const [stretch, limits] of [
          [range.works, hard],
          [range.comfortable, comfort],
          [range.steady, [...comfort, 'held'] as const],
        ] as const) {
          const all = (openMNm: number) => limits.every((id) => keeps({ ...made, openMNm }, id));
          if (isClash(stretch)) {
            // No torque does: tried from none to far beyond the strongest.
            for (let openMNm = 0.25; openMNm < 40; openMNm *= 1.3) expect(all(openMNm)).toBe(false);
          } else {
            const { fromMNm, toMNm } = stretch;
            const inside = fromMNm + (0.001 + 0.998 * share) * (toMNm - fromMNm);
            if (toMNm - fromMNm > 1e-6) expect(all(inside)).toBe(true);
            expect(all(0.999 * fromMNm)).toBe(false);
            expect(all(1.001 * toMNm)).toBe(false);
          }
        }
      }),
      { numRuns: Math.ceil(numRuns / 3) },
    );
  });
});
