import type { Finger, Rig } from '../../rig/rig.ts';
import { springTorqueMNm } from '../../spool/spring.ts';
import { spoolTurnDeg } from '../../spool/winding.ts';
import { capstanRatio, frictionExponent, lostMotionMm, tensionBandN } from '../../string/capstan.ts';
import { stringStretchMm } from '../../string/stretch.ts';
import type { Margin } from '../margin.ts';
import { stringLength } from './string-length.ts';
import { knuckleArmMm, strokeMm } from './stroke.ts';

/** Movement that may be lost, mm: about 4 deg of the knuckle at 14 mm. Assumed. */
export const MOST_LOST_MM = 1;

/** Where movement gets lost at a reversal, mm of string. */
export interface LostMotion {
  /** The soft anchor gives way until the guides' friction is overcome. */
  friction: number;
  /** String and spool, without the shaft. */
  play: number;
  /** The shaft in the spool or the potentiometer, where the rig file tells it. */
  backlash: number;
  /** The string itself. */
  stretch: number;
}

/** What a finger's guides come to. */
export interface GuideSize {
  /** Sum of friction times wrap, and the ratio of pulls before and behind all guides. */
  exponent: number;
  ratio: number;
  guides: { wrapDeg: number; friction: number; ratio: number }[];
  /** Difference of the pull at the fingertip between closing and opening, mid stroke, N. */
  bandN: number;
  lost: LostMotion;
  lostMm: number;
  /** At the knuckle, with all other joints still, and as a share of the smallest hand's stroke. */
  lostDeg: number;
  lostShare: number;
  dominant: keyof LostMotion;
  /** What a degree of shaft backlash would cost, mm of string and deg at the knuckle. */
  backlashMmPerDeg: number;
  backlashDegPerDeg: number;
  margins: Margin[];
}

/** @param hands size of the smallest and the largest hand, 1 = the published mean */
export function sizeGuides(rig: Rig, finger: Finger, hands: readonly [number, number]): GuideSize {
  const { spring, spoolRadiusMm: radiusMm, anchorNPerMm } = finger;
  const stroke = strokeMm(rig, finger, hands[1]);
  const turns = spoolTurnDeg(stroke, radiusMm, finger.stringDiameterMm) / 360;
  // As the trace has it: one width for the whole stroke, that of its middle.
  const tensionN = springTorqueMNm(turns / 2, spring.openTorqueMNm, spring.perTurnMNm, 0, 0) / radiusMm;
  const exponent = frictionExponent(finger.guides);
  const bandN = tensionBandN(tensionN, exponent);
  const backlash = ((finger.backlashDeg ?? 0) * Math.PI * radiusMm) / 180;
  const lost: LostMotion = {
    friction: lostMotionMm(tensionN, exponent, anchorNPerMm),
    play: Math.max(0, 2 * finger.playMm - backlash),
    backlash,
    stretch: stringStretchMm(bandN, stringLength(finger, stroke, hands[1]).pathMm),
  };
  const lostMm = lost.friction + lost.play + lost.backlash + lost.stretch;
  const perMm = 180 / (Math.PI * knuckleArmMm(rig, finger));
  const backlashMmPerDeg = (Math.PI * radiusMm) / 180;
  const size: GuideSize = {
    exponent,
    ratio: capstanRatio(exponent, 1),
    guides: finger.guides.map(({ wrapDeg, friction }) => ({
      wrapDeg,
      friction,
      ratio: capstanRatio(friction, (wrapDeg * Math.PI) / 180),
    })),
    bandN,
    lost,
    lostMm,
    lostDeg: lostMm * perMm,
    lostShare: lostMm / strokeMm(rig, finger, hands[0]),
    dominant: PARTS.reduce((worst, part) => (lost[part] > lost[worst] ? part : worst)),
    backlashMmPerDeg,
    backlashDegPerDeg: backlashMmPerDeg * perMm,
    margins: [],
  };
  size.margins = [
    {
      group: 'guides',
      fingers: [finger.name],
      isSoft: true,
      what: 'movement lost between finger and spool',
      // From the figure as shown: string lengths differ a little, and alike fingers are to be told together.
      ratio: MOST_LOST_MM / Number(lostMm.toFixed(2)),
      seen: `${lostMm.toFixed(2)} mm (${size.lostDeg.toFixed(1)} deg at the knuckle)`,
      allowed: `at most ${MOST_LOST_MM} mm`,
      cure: CURES[size.dominant],
    },
  ];
  return size;
}

/** The parts in the order in which they are told. */
export const PARTS: (keyof LostMotion)[] = ['friction', 'play', 'backlash', 'stretch'];

const CURES: Record<keyof LostMotion, string> = {
  friction:
    'guides that rub less or bend the string less, or a firmer anchor at the fingertip: friction is the larger part',
  play: 'less play between string and spool: it is the larger part, and the zero drifts by it; take the open hand anew now and then',
  backlash:
    'a spool clamped to the shaft: its backlash is the larger part, and the zero drifts by it; a larger spool makes it worse',
  stretch: 'a stiffer or a shorter string: its stretch is the larger part',
};
