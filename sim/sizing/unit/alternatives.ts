import { baseJointDeg } from '../../hand/closure.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { largestPullN } from '../../string/pull.ts';
import { sizeSpool } from '../strings/spool-size.ts';
import { strokeMm } from '../strings/stroke.ts';
import { bareSetSize } from './bare-set-size.ts';
import { type UnitChoices, unitDimensions } from './unit-dimensions.ts';

/** One way to build the set, and what it comes to; the worst finger counts. */
export interface Alternative {
  name: string;
  /** Along a unit's axis, all units with the plate, highest point above the skin, mm. */
  unitWidthMm: number;
  widthMm: number;
  heightMm: number;
  massG: number;
  /** Share of the potentiometer's travel that the largest hand uses, every part at its worst. */
  travelShare: number;
  /** Counts of a 12-bit reading for one degree of the knuckle. */
  countsPerDeg: number;
  /** Pull felt at the fingertip, closed, N. */
  pullN: number;
  /** Turns of the spring that there is room for over turns that are needed. */
  springRatio: number;
  /** Spools that are too small for their shaft and spring. */
  isTooSmall: boolean;
}

/** Narrow strip of spring steel. Assumed. */
const NARROW_MM = 3;
/** How much smaller a spool is tried. Assumed. */
const STEP_MM = 2;
const MOST_SMALL_MM = 1;

/** The set as asked for first, then slimmer ones. */
export function alternatives(
  rig: Rig,
  hands: readonly [number, number],
  choices: UnitChoices,
): Alternative[] {
  const inside: UnitChoices = { ...choices, springPlace: 'inside' };
  const narrow = (of: UnitChoices): UnitChoices => ({ ...of, stripWidthMm: NARROW_MM });
  const smaller = withRadii(rig, (finger) => smallerRadiusMm(rig, finger, hands[1], choices));
  const list = [
    built('as it is', rig, hands, choices),
    built(`spools ${STEP_MM} mm smaller`, smaller, hands, choices),
    built('spring inside the spool', rig, hands, inside),
    built(`strip ${NARROW_MM} mm wide`, rig, hands, narrow(choices)),
    built('inside and narrow strip', rig, hands, narrow(inside)),
    built('all three', smaller, hands, narrow(inside)),
  ];
  return list;
}

function built(name: string, rig: Rig, hands: readonly [number, number], choices: UnitChoices): Alternative {
  const size = bareSetSize(rig, hands[1], choices);
  const spools = rig.fingers.map((finger) => sizeSpool(rig, finger, hands));
  const pulls = rig.fingers.map((finger) => largestPullN(finger, strokeMm(rig, finger, hands[1])));
  return {
    name,
    unitWidthMm: size.unitMm.widthMm,
    widthMm: size.widthMm,
    heightMm: size.heightMm,
    massG: size.massG.total,
    travelShare: Math.max(...spools.map((spool) => spool.worstShare)),
    countsPerDeg: Math.min(...spools.map((spool, i) => spool.counts[1] / baseJointDeg(rig.fingers[i]!.name))),
    pullN: Math.max(...pulls),
    springRatio: Math.min(...size.springs.map((spring) => spring.givenTurns / spring.neededTurns)),
    isTooSmall: size.dimensions.units.some(({ unit }) => unit.spool.radiusMm < unit.leastRadiusMm),
  };
}

/** So much smaller, but not too small for shaft, spring and knot wherever the spring lies. */
function smallerRadiusMm(rig: Rig, finger: Finger, largest: number, choices: UnitChoices): number {
  const now = finger.spoolRadiusMm;
  const wish = Math.max(MOST_SMALL_MM, now - STEP_MM);
  const least = (springPlace: UnitChoices['springPlace']) =>
    unitDimensions(rig, { ...finger, spoolRadiusMm: wish }, largest, { ...choices, springPlace })
      .leastRadiusMm;
  return Math.min(now, Math.max(wish, least('beside'), least('inside')));
}

function withRadii(rig: Rig, radiusOf: (finger: Finger) => number): Rig {
  return { ...rig, fingers: rig.fingers.map((finger) => ({ ...finger, spoolRadiusMm: radiusOf(finger) })) };
}
