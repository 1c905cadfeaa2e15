import { fingerLengthMm } from '../../hand/phalanges.ts';
import { DRAG_SPREAD, RATED_DRAG_MNM } from '../../pot/drag.ts';
import type { Finger, Rig } from '../../rig/rig.ts';
import { fingertipNormalN, returnFactor, stringTensionN, tensionVerdict } from '../../spool/force.ts';
import { halfFullBarrelMm, springTorqueMNm, stripStressMPa, turnsInBarrel } from '../../spool/spring.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { fingertipTensionN, frictionExponent } from '../../string/capstan.ts';
import { largestPullN } from '../../string/pull.ts';
import { willRetract } from '../../string/slack.ts';
import type { Margin } from '../margin.ts';
import {
  FASTEST_OPENING_S,
  fastestTautS,
  type Opening,
  QUICK_OPENING_S,
  simulateOpening,
} from './opening.ts';
import { openingInertiaMNm } from './preload-limits.ts';
import { type PreloadRange, preloadRange } from './preload-range.ts';
import { springMargins } from './spring-margins.ts';
import { knuckleArmMm, strokeMm } from './stroke.ts';

/** Points of the torque curve. */
const POINTS = 24;
/** Arbor that a proposed barrel is worked out for, mm: on a 6 mm shaft. Assumed. */
const ARBOR_RADIUS_MM = 3;

/** Spring torque over the stroke of the largest hand; turns from the open finger. */
export interface TorqueCurve {
  turns: number[];
  /** Paying out, without hysteresis, winding in. */
  outMNm: number[];
  meanMNm: number[];
  inMNm: number[];
}

/** The strip, where the rig file tells it. */
export interface StripSize {
  /** Bending stress with the finger closed. */
  stressMPa: number;
  /** Turns of the spring with the finger closed, and what the barrel has for it. */
  turnsUsed: number;
  barrelTurns: number;
  /** Radius of the barrel that the turns are for, and whether it is only a proposal. */
  barrelRadiusMm: number;
  isProposed: boolean;
}

/** What a finger's spring comes to, for the largest hand. */
export interface SpringSize {
  /** Drag as stated, of a stiff part, and the band that a datasheet allows. */
  dragMNm: number;
  stiffDragMNm: number;
  ratedDragMNm: [least: number, most: number];
  torque: TorqueCurve;
  /** Winding-in torque of the open finger over a stiff part's drag; null without any drag. Above 1 it comes back. */
  staticFactor: number | null;
  /** The same at the datasheet's highest drag. */
  ratedFactor: number;
  /** Against 1.5 times a stiff part's drag and what inertia asks for in a quick opening: at least 1 is asked for. */
  returnFactor: number;
  /** Highest drag that leaves that factor at 1, of the part itself, mN·m; 0 when none does. */
  mostDragMNm: number;
  /** Share of the pull that the guides take while the string is wound in. */
  guideShare: number;
  /** A quick opening and the fastest one, both against a stiff part. */
  openings: [quick: Opening, fastest: Opening];
  /** Shortest opening in which the string stays taut; null when the spool does not come back. */
  fastestTautMs: number | null;
  /** Along the string at the fingertip, N. */
  pullsN: { openIn: number; openOut: number; closedIn: number; closedOut: number };
  /** What of `openOut` and `closedOut` presses across the straight fingertip, N. */
  acrossN: [open: number, closed: number];
  feels: ReturnType<typeof tensionVerdict>;
  strip: StripSize | null;
  preload: PreloadRange;
  margins: Margin[];
}

/** @param hands size of the smallest and the largest hand, 1 = the published mean */
export function sizeSpring(rig: Rig, finger: Finger, hands: readonly [number, number]): SpringSize {
  const { spring, potentiometer: pot, spoolRadiusMm: radiusMm } = finger;
  const stroke = strokeMm(rig, finger, hands[1]);
  const turns = spoolTurnDeg(stroke, radiusMm, finger.stringDiameterMm) / 360;
  const torqueMNm = (n: number, direction: number) =>
    springTorqueMNm(n, spring.openTorqueMNm, spring.perTurnMNm, spring.hysteresis, direction);
  const stiff = pot.dragMNm * DRAG_SPREAD;
  const inertia = openingInertiaMNm(finger, stroke);
  const exponent = frictionExponent(finger.guides);
  const pullN = (n: number, dragMNm: number, direction: number) =>
    fingertipTensionN(
      stringTensionN(torqueMNm(n, direction), dragMNm, radiusMm, direction),
      exponent,
      direction,
    );
  const staticFactor = willRetract(spring.openTorqueMNm, spring.hysteresis, stiff, 0);
  const taut = fastestTautS(finger, stroke, stiff);
  const pullsN = {
    openIn: pullN(0, stiff, -1),
    openOut: pullN(0, pot.dragMNm, 1),
    closedIn: pullN(turns, stiff, -1),
    closedOut: largestPullN(finger, stroke),
  };
  const across = (tensionN: number) =>
    fingertipNormalN(tensionN, knuckleArmMm(rig, finger), fingerLengthMm(finger.name, rig.hand.scale));
  const size: SpringSize = {
    dragMNm: pot.dragMNm,
    stiffDragMNm: stiff,
    ratedDragMNm: [...RATED_DRAG_MNM],
    torque: torqueCurve(turns, torqueMNm),
    staticFactor: Number.isFinite(staticFactor) ? staticFactor : null,
    ratedFactor: willRetract(spring.openTorqueMNm, spring.hysteresis, RATED_DRAG_MNM[1], 0),
    returnFactor: returnFactor(torqueMNm(0, -1), stiff, inertia),
    mostDragMNm: Math.max(0, (torqueMNm(0, -1) - inertia) / (1.5 * DRAG_SPREAD)),
    guideShare: 1 - Math.exp(-exponent),
    openings: [
      simulateOpening(finger, stroke, stiff, QUICK_OPENING_S),
      simulateOpening(finger, stroke, stiff, FASTEST_OPENING_S),
    ],
    fastestTautMs: taut === undefined ? null : 1000 * taut,
    pullsN,
    acrossN: [across(pullsN.openOut), across(pullsN.closedOut)],
    feels: tensionVerdict(pullsN.closedOut),
    strip: stripSize(finger, turns),
    preload: preloadRange(finger, stroke),
    margins: [],
  };
  size.margins = springMargins(size, finger);
  return size;
}

function torqueCurve(turns: number, torqueMNm: (n: number, direction: number) => number): TorqueCurve {
  const curve: TorqueCurve = { turns: [], outMNm: [], meanMNm: [], inMNm: [] };
  for (let i = 0; i <= POINTS; i++) {
    const n = (turns * i) / POINTS;
    curve.turns.push(n);
    curve.outMNm.push(torqueMNm(n, 1));
    curve.meanMNm.push(torqueMNm(n, 0));
    curve.inMNm.push(torqueMNm(n, -1));
  }
  return curve;
}

function stripSize(finger: Finger, turns: number): StripSize | null {
  const { strip, openTorqueMNm, perTurnMNm } = finger.spring;
  if (!strip) return null;
  const { widthMm, thicknessMm, lengthMm } = strip;
  const barrel = strip.barrel ?? {
    radiusMm: Math.ceil(10 * halfFullBarrelMm(ARBOR_RADIUS_MM, thicknessMm, lengthMm)) / 10,
    arborRadiusMm: ARBOR_RADIUS_MM,
  };
  return {
    stressMPa: stripStressMPa(openTorqueMNm + perTurnMNm * turns, widthMm, thicknessMm),
    turnsUsed: openTorqueMNm / perTurnMNm + turns,
    barrelTurns: turnsInBarrel(barrel.radiusMm, barrel.arborRadiusMm, thicknessMm, lengthMm),
    barrelRadiusMm: barrel.radiusMm,
    isProposed: strip.barrel === undefined,
  };
}
