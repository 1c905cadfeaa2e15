import { boardFacts } from '../../firmware/boards/boards.ts';
import { nominalEnds, nominalVolts } from '../board/nominal-readings.ts';
import { highestSourceOhm } from '../pot/highest-source.ts';
import { settlingTimeConstants } from '../pot/settling.ts';
import { TRAVEL_TOLERANCE_DEG } from '../pot/tolerance.ts';
import type { Finger, Rig } from '../rig/rig.ts';
import {
  inertiaTorqueMNm,
  LEAST_PULL_N,
  returnFactor,
  SPOOL_DENSITY_KG_PER_M3,
  SPOOL_WIDTH_MM,
  spoolInertiaKgM2,
  TIRING_PULL_N,
} from '../spool/force.ts';
import { GOOD_TRAVEL_SHARE, MOST_TRAVEL_SHARE, spoolRadiusMm, travelShare } from '../spool/radius.ts';
import { springTorqueMNm } from '../spool/spring.ts';
import { spoolTurnDeg } from '../spool/winding.ts';
import { frictionExponent, lostMotionMm } from '../string/capstan.ts';
import { fullExcursionMm } from '../string/excursion.ts';
import { largestPullN } from '../string/pull.ts';
import { cornerVolts, dividerOf } from './corners.ts';
import type { Margin } from './margin.ts';

/** A quick opening, s. Assumed. */
const OPENING_S = 0.2;
/** Parts vary: drag of a potentiometer against its nominal value. Assumed. */
const WORST_DRAG = 1.3;

/** What a finger's build comes to. */
export interface FingerSize {
  name: string;
  /** String drawn by the smallest and the largest hand, mm. */
  strokesMm: [number, number];
  /** Share of the electrical travel that the largest hand uses, every part at its worst. */
  travelShare: number;
  proposedRadiusMm: number;
  /** Counts of a 12-bit reading between the ends, and string for one of them, mm. */
  counts: number;
  mmPerCount: number;
  /** Spring torque with the finger open and closed, mN·m, without its hysteresis. */
  torquesMNm: [number, number];
  returnFactor: number;
  /** Largest pull at the fingertip, N, smallest at the spool, N. */
  pullsN: [least: number, most: number];
  /** Movement lost between finger and spool, mm, and what of it comes from friction with a soft anchor. */
  lostMm: number;
  lostByFrictionMm: number;
  cornersV: [lowest: number, highest: number];
  /** Voltage at the pin with the finger open and closed, every part at its nominal value, V. */
  endsV: [open: number, closed: number];
  /** Highest resistance that the pin sees, ohm, and the time that a step takes to settle within half a code, ms. */
  sourceOhm: number;
  settlingMs: number;
  margins: Margin[];
}

/**
 * Sizes one finger.
 * @param hands size of the smallest and the largest hand, 1 = the published mean
 */
export function sizeFinger(rig: Rig, finger: Finger, hands: readonly [number, number]): FingerSize {
  const { spring, potentiometer: pot, spoolRadiusMm: radiusMm, stringDiameterMm } = finger;
  const strokesMm: [number, number] = [
    fullExcursionMm(finger, 0) * hands[0],
    fullExcursionMm(finger, 0) * hands[1],
  ];
  const [, largestMm] = strokesMm;
  const worstTravelDeg = pot.electricalTravelDeg * (1 - TRAVEL_TOLERANCE_DEG / pot.mechanicalTravelDeg);
  const share = travelShare(largestMm, radiusMm, worstTravelDeg);
  const proposedRadiusMm =
    Math.ceil(10 * spoolRadiusMm(largestMm, pot.electricalTravelDeg, GOOD_TRAVEL_SHARE)) / 10;

  const turns = spoolTurnDeg(largestMm, radiusMm, stringDiameterMm) / 360;
  const torqueAt = (n: number) => springTorqueMNm(n, spring.openTorqueMNm, spring.perTurnMNm, 0, 0);
  const drag = pot.dragMNm * WORST_DRAG;
  const inertia = inertiaTorqueMNm(
    spoolInertiaKgM2(radiusMm, SPOOL_WIDTH_MM, SPOOL_DENSITY_KG_PER_M3),
    largestMm,
    radiusMm,
    OPENING_S,
  );
  const comesBack = returnFactor(spring.openTorqueMNm * (1 - spring.hysteresis), drag, inertia);
  const exponent = frictionExponent(finger.guides);
  const leastPullN =
    ((spring.openTorqueMNm * (1 - spring.hysteresis) - drag) / radiusMm) * Math.exp(-exponent);
  const mostPullN = largestPullN(finger, largestMm);

  const tensionN = torqueAt(turns / 2) / radiusMm;
  const lostByFrictionMm = lostMotionMm(tensionN, exponent, finger.anchorNPerMm);
  const lostMm = lostByFrictionMm + 2 * finger.playMm;

  const divider = dividerOf(rig, finger);
  const { lowestV, highestV } = cornerVolts(divider);
  const range = boardFacts(rig.board).adcRangeMv;
  const ends = nominalEnds(rig, finger);
  const { openV, closedV } = nominalVolts(rig, finger);
  const counts = 4096 * (ends.closed - ends.open);
  const mostOhm = highestSourceOhm(
    pot.resistanceOhm,
    divider.topOhm,
    divider.bottomOhm,
    divider.pullDownOhm,
  );
  const settlingMs = 1000 * settlingTimeConstants(12) * mostOhm * finger.wiring.capacitorF;

  const size: FingerSize = {
    name: finger.name,
    strokesMm,
    travelShare: share,
    proposedRadiusMm,
    counts,
    mmPerCount: (fullExcursionMm(finger, 0) * rig.hand.scale) / counts,
    torquesMNm: [torqueAt(0), torqueAt(turns)],
    returnFactor: comesBack,
    pullsN: [leastPullN, mostPullN],
    lostMm,
    lostByFrictionMm,
    cornersV: [lowestV, highestV],
    endsV: [openV, closedV],
    sourceOhm: mostOhm,
    settlingMs,
    margins: [],
  };
  size.margins = marginsOf(size, finger, rig, [range[0] / 1000, range[1] / 1000]);
  return size;
}

function marginsOf(size: FingerSize, finger: Finger, rig: Rig, rangeV: readonly [number, number]): Margin[] {
  const [leastPullN, mostPullN] = size.pullsN;
  const [lowestV, highestV] = size.cornersV;
  const periodMs = 1000 / rig.frameRateHz;
  const about = { fingers: [size.name], isSoft: false };
  const pct = (share: number) => `${(100 * share).toFixed(1)} %`;
  const margins: Margin[] = [
    {
      ...about,
      group: 'spool',
      what: 'travel of the potentiometer used by the largest hand',
      ratio: MOST_TRAVEL_SHARE / size.travelShare,
      seen: pct(size.travelShare),
      allowed: `at most ${pct(MOST_TRAVEL_SHARE)}${size.travelShare > 1 ? '; it hits the end stop' : ''}`,
      cure: `take a spool of ${size.proposedRadiusMm} mm radius`,
    },
    {
      ...about,
      group: 'spring',
      what: 'torque that winds the string in, open, against a stiff potentiometer',
      ratio: size.returnFactor,
      seen: `${size.torquesMNm[0].toFixed(2)} mN·m`,
      allowed: `at least ${(size.torquesMNm[0] / size.returnFactor).toFixed(2)} mN·m`,
      cure: 'more turns of preload, a stronger spring, or a potentiometer that turns more easily',
    },
    {
      ...about,
      group: 'spring',
      isSoft: true,
      what: 'pull felt at the fingertip, closed',
      ratio: TIRING_PULL_N / mostPullN,
      seen: `${mostPullN.toFixed(2)} N`,
      allowed: `at most ${TIRING_PULL_N} N for long use`,
      cure: 'less preload, a larger spool, or guides that rub less',
    },
    {
      ...about,
      group: 'spring',
      isSoft: true,
      what: 'pull that keeps the string taut, open',
      ratio: Math.max(0, leastPullN) / LEAST_PULL_N,
      seen: `${leastPullN.toFixed(2)} N`,
      allowed: `at least ${LEAST_PULL_N} N`,
      cure: 'more preload, a smaller spool, or guides that rub less',
    },
    {
      ...about,
      group: 'wiring',
      what: 'highest voltage in any corner of tolerance',
      ratio: rangeV[1] / highestV,
      seen: `${highestV.toFixed(3)} V`,
      allowed: `at most ${rangeV[1]} V`,
      cure: 'a larger resistor at the top',
    },
    {
      ...about,
      group: 'wiring',
      what: 'a frame against the time in which the pin settles',
      ratio: size.settlingMs > 0 ? periodMs / size.settlingMs : Number.POSITIVE_INFINITY,
      seen: `${size.settlingMs.toFixed(2)} ms`,
      allowed: `at most ${periodMs.toFixed(1)} ms`,
      cure: 'a smaller capacitor at the pin, or a potentiometer of less resistance',
    },
  ];
  if (rangeV[0] > 0) {
    margins.push({
      ...about,
      group: 'wiring',
      what: 'lowest voltage in any corner of tolerance',
      ratio: lowestV / rangeV[0],
      seen: `${lowestV.toFixed(3)} V`,
      allowed: `at least ${rangeV[0]} V`,
      cure: 'a larger resistor at the bottom',
    });
  }
  if (finger.anchorNPerMm > 0) {
    margins.push({
      ...about,
      group: 'guides',
      isSoft: true,
      what: 'movement lost between finger and spool',
      ratio: MOST_LOST_MM / size.lostMm,
      seen: `${size.lostMm.toFixed(2)} mm`,
      allowed: `at most ${MOST_LOST_MM} mm`,
      cure:
        size.lostByFrictionMm > 2 * finger.playMm
          ? 'guides that rub less, or a firmer anchor at the fingertip: friction is the larger part'
          : 'less play on shaft and spool: it is the larger part',
    });
  }
  return margins;
}

/** Movement that may be lost, mm: about 4 deg of the knuckle at 14 mm. Assumed. */
const MOST_LOST_MM = 1;
