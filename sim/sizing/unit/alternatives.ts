import { baseJointDeg } from '../../hand/closure.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { MOST_TRAVEL_SHARE } from '../../spool/radius.ts';
import { largestPullN } from '../../string/pull.ts';
import { sizeSpool } from '../spool-size.ts';
import { strokeMm } from '../stroke.ts';
import { bareSetSize } from './bare-set-size.ts';
import type { UnitChoices } from './unit-dimensions.ts';

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
/** How much smaller a spool is tried when the rig's uses all the travel it may. Assumed. */
const STEP_MM = 2;

/** The set as asked for first, then slimmer ones. */
export function alternatives(
  rig: Rig,
  hands: readonly [number, number],
  choices: UnitChoices,
): Alternative[] {
  const inside: UnitChoices = { ...choices, springPlace: 'inside' };
  const narrow = (of: UnitChoices): UnitChoices => ({ ...of, stripWidthMm: NARROW_MM });
  const smaller = withRadii(rig, (finger) => smallerRadiusMm(rig, finger, hands));
  const list = [
    built('as it is', rig, hands, choices),
    built('smaller spools', smaller, hands, choices),
    built('spring inside the spool', rig, hands, inside),
    built(`strip of ${NARROW_MM} mm, as thick`, rig, hands, narrow(choices)),
    built('inside, and the narrow strip', rig, hands, narrow(inside)),
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

/** The smallest radius on half millimetres that keeps 5 % of the travel free at both ends, or a step smaller. */
function smallerRadiusMm(rig: Rig, finger: Finger, hands: readonly [number, number]): number {
  const now = finger.spoolRadiusMm;
  let radiusMm = now;
  const shareAt = (radius: number) => sizeSpool(rig, { ...finger, spoolRadiusMm: radius }, hands).worstShare;
  const { worstShare } = sizeSpool(rig, finger, hands);
  // The share falls about as 1/r: start there, then step to where it holds.
  radiusMm = Math.floor((2 * now * worstShare) / MOST_TRAVEL_SHARE) / 2;
  while (radiusMm < now && shareAt(radiusMm) > MOST_TRAVEL_SHARE) radiusMm += 0.5;
  return radiusMm < now ? radiusMm : Math.max(1, now - STEP_MM);
}

function withRadii(rig: Rig, radiusOf: (finger: Finger) => number): Rig {
  return { ...rig, fingers: rig.fingers.map((finger) => ({ ...finger, spoolRadiusMm: radiusOf(finger) })) };
}
