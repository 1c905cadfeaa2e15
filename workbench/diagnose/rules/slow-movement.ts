import { followingOf } from '../features/play-and-lag.ts';
import { flatEndsOf, slowCurveOf } from '../features/slow-curve.ts';
import { confidenceOf, counts, type Finding, percent } from '../finding.ts';
import { countsOfTravel, type FingerLook, type HandLook } from '../look.ts';
import { leastMoveOf, referenceFor, rowRateHz, wayOf } from '../movement.ts';
import { alive, found, type Rule } from './rule.ts';

/** What people's fingers add to the play that is seen, share of the movement. Assumed. */
const TOGETHER = 0.025;
/** Play must take away so much of what lag alone leaves (squares), and little may stay unexplained. Assumed. */
const LEFT = 0.5;
const UNEXPLAINED = 0.025;
/** A stretch at an end without any change is told from this share of the movement on. Assumed. */
const LEAST_FLAT = 0.08;
/** Travel within which a reading stands still: bands and noise. Assumed. */
const STILL = 0.015;
/** Readings from here on are the converter's ends: 0 and 4095, held a little off by averaging. */
const AT_TOP = 4060;

/** What one finger does differently from its neighbours while all close and open slowly. */
export const slowMovement: Rule = (hand, settled) => {
  const skip = new Set([...settled.dead, ...settled.odd]);
  return (settled.isUnsteady ? [] : alive(hand, settled))
    .filter((finger) => !settled.odd.has(finger.plan.slot))
    .flatMap((finger) => lookAtFinger(hand, finger, skip, settled.dirty.has(finger.plan.slot)));
};

function lookAtFinger(
  hand: HandLook,
  finger: FingerLook,
  skip: ReadonlySet<number>,
  isDirty: boolean,
): Finding[] {
  const look = finger.hand.slow;
  if (!look || look.range.high - look.range.low < leastMoveOf(finger) || wayOf(finger) < 0) return [];
  const reference = referenceFor(hand, finger, skip);
  if (!reference) return [];
  const curve = slowCurveOf(look.travel, reference);
  const findings: Finding[] = [];
  const span = look.range.high - look.range.low;
  const closing = flatEndsOf(curve.closing, STILL * span + STILL);
  const opening = flatEndsOf(curve.opening, STILL * span + STILL);
  const flat = {
    open: Math.min(closing.open, opening.open),
    closed: Math.min(closing.closed, opening.closed),
  };
  const isBoth = flat.open > LEAST_FLAT && flat.closed > LEAST_FLAT;
  if (flat.open > LEAST_FLAT && !look.isHeldLow)
    findings.push(flatEnd(finger, 'open', flat.open, look.range.low, isBoth));
  if (flat.closed > LEAST_FLAT && !look.isHeldHigh)
    findings.push(flatEnd(finger, 'closed', flat.closed, look.range.high, isBoth));
  const scaled = look.travel.map((travel) => (travel - look.range.low) / span);
  const rateHz = rowRateHz(hand.evidence.hand.slow!.timesS);
  const following = followingOf(scaled, reference, rateHz);
  const isPlay = following !== undefined && following.left < LEFT && following.restSd < UNEXPLAINED;
  const widthMm = 2 * (isPlay ? following.playHalf : 0) * finger.plan.fullMm;
  const limitMm = 0.4 * finger.plan.lostMm + TOGETHER * finger.plan.fullMm;
  if (widthMm > limitMm && !isDirty) findings.push(friction(finger, widthMm, limitMm));
  return findings;
}

function within([low, high]: readonly [number, number], value: number, margin: number): boolean {
  return value >= low - margin && value <= high + margin;
}

function flatEnd(
  finger: FingerLook,
  end: 'open' | 'closed',
  share: number,
  travel: number,
  isBoth: boolean,
): Finding {
  const level = countsOfTravel(finger, travel);
  const confidence = confidenceOf(share / LEAST_FLAT);
  const seen = `Through the ${end === 'open' ? 'first' : 'last'} ${percent(share, 0)} of the closing, and as much of the opening, the ${finger.plan.name} stands at ${counts(level)} while the other fingers move.`;
  if (level <= 4 || level >= AT_TOP) {
    return found('saturated', [finger], confidence, {
      evidence: [`${seen} That is the end of the converter’s range.`],
      cure: [
        level >= AT_TOP
          ? 'The pin’s voltage is above what the converter can read: a larger resistor above the potentiometer brings it down. "tautline size" proposes a pair.'
          : 'The pin’s voltage is below what the converter can read: a larger resistor below the potentiometer lifts it. "tautline size" proposes a pair.',
        'Check with a multimeter: the voltage at the pin must go on changing with the finger.',
      ],
      rulesOut: ['Dead end and end stop: those stand at a level inside the converter’s range.'],
    });
  }
  const terminal = end === 'open' ? finger.plan.bottomCounts : finger.plan.topCounts;
  if (within(terminal, level, 0)) {
    const kind = end === 'closed' && !isBoth ? 'endStop' : 'deadEnd';
    return found(kind, [finger], confidence, {
      evidence: [
        `${seen} The end of the potentiometer’s track reads ${counts(terminal[0])} to ${counts(terminal[1])}.`,
      ],
      cure: [
        'The shaft is at the end of its travel before the finger is; close the finger gently and feel whether the string jams: loosen the spool, turn the shaft by 10-20° towards the middle, fasten it again. If both ends are flat, a larger spool is needed: "tautline size" proposes one.',
        'Check with a multimeter, supply off: ohms from the middle leg to the end leg fall to almost nothing where the reading stands.',
      ],
      rulesOut: ['Saturation: the level is inside the converter’s range.'],
      orElse: [end === 'open' ? 'slackString' : kind === 'deadEnd' ? 'endStop' : 'deadEnd'],
    });
  }
  if (end === 'closed') {
    return found('endStop', [finger], confidence, {
      evidence: [
        `${seen} The end of the potentiometer’s track would read ${counts(terminal[0])} to ${counts(terminal[1])}: the shaft stops before it.`,
      ],
      cure: [
        'Something stops the spool or holds the string: the shaft’s own stop, a knot in a guide, a string that is too short. Close the finger by hand and feel where it stops; loosen the spool and set it with the hand open.',
      ],
      rulesOut: [
        'Dead end: the level is not that of the track’s end.',
        'Saturation: it is inside the converter’s range.',
      ],
      orElse: ['deadEnd'],
    });
  }
  return found('slackString', [finger], confidence, {
    evidence: [
      `${seen} The string is slack there: about ${(share * finger.plan.fullMm).toFixed(1)} mm must be taken up before the spool turns.`,
    ],
    cure: ['Shorten the string by that length, or give the spring one more turn of preload.'],
    rulesOut: ['Dead end: the level is not that of the track’s end.'],
    orElse: ['deadEnd', 'endStop'],
  });
}

function friction(finger: FingerLook, widthMm: number, limitMm: number): Finding {
  return found('friction', [finger], confidenceOf(widthMm / limitMm), {
    evidence: [
      `In the slow movement the ${finger.plan.name} hangs ${widthMm.toFixed(1)} mm of string apart between closing and opening, at any speed, against its neighbours; differences of planned play and friction allow ${limitMm.toFixed(1)} mm.`,
    ],
    cure: [
      'Draw the string by hand and feel for the guide at which it rubs; wider bends, PTFE tube and fewer guides help most. Then look for play: a spool loose on its shaft, a soft fastening at the fingertip.',
    ],
    rulesOut: ['Slack string: the gap is there in slow movement too, both ways and all along the travel.'],
  });
}
