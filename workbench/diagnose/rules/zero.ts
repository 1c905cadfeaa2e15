import { restLevelsOf } from '../features/flicks.ts';
import { medianOf, sdOf } from '../features/statistics.ts';
import { confidenceOf, type Finding, percent } from '../finding.ts';
import { countsOfTravel, type FingerLook, type HandLook } from '../look.ts';
import { flicksFor, rowRateHz } from '../movement.ts';
import { alive, found, type Rule, type Settled } from './rule.ts';

/** Shift of the zero over a flick that is told, share of the closure, beside play. Assumed. */
const LEAST_JUMP = 0.025;
/** Drift of a resting finger that is told, share of the closure. Assumed. */
const LEAST_DRIFT = 0.02;
/** Shift of both ends, and loss at the closed one, over a session; share of the closure, beside the other fingers. Assumed. */
const LEAST_SHIFT = 0.025;
const LEAST_SHRINK = 0.045;
/** Time next to a flick's half height that is left out, and rest that is looked at, s. */
const CLEAR_S = 0.35;
const WINDOW_S = 0.2;

const SLIP_CURE = [
  'Mark the string where it enters the spool and flick again: if the mark moved, the knot or the winding slips. If not, look for a spool that slips on its shaft (flat and grub screw) and for a skin that does not slide back under the fastening.',
  'The zero command puts the zero right again for now and keeps the span.',
];

const DRIFT_CURE = [
  'Hold the string at the spool: if the reading still drifts, it is electrical (a warming regulator or potentiometer, a bad contact). If it stops, the string creeps in its guides or the hand moved.',
  'Capture the zero after the build has warmed up.',
];

/** Zeros that do not stay where they were: strings that slip, readings that drift. */
export const zero: Rule = (hand, settled) =>
  (settled.isUnsteady ? [] : alive(hand, settled))
    .filter(({ plan }) => !settled.odd.has(plan.slot) && !settled.dirty.has(plan.slot))
    .flatMap(
      (finger) => slipOf(hand, finger) ?? movedOf(hand, finger, settled) ?? driftOf(hand, finger) ?? [],
    );

function slipOf(hand: HandLook, finger: FingerLook): Finding | undefined {
  const rows = hand.evidence.hand.flick;
  const travel = finger.hand.flick?.travel;
  if (!rows || !travel) return undefined;
  const rate = rowRateHz(rows.timesS);
  const jumps = flicksFor(hand, finger)
    .map((flick) => restLevelsOf(travel, flick, Math.round(CLEAR_S * rate), Math.round(WINDOW_S * rate)))
    .filter((levels) => levels !== undefined)
    .map(({ before, after }) => after - before);
  if (jumps.length === 0) return undefined;
  const jump = jumps.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  // A finger that opens always comes from the same side of the play, so little of it shows.
  const limit = LEAST_JUMP + (0.3 * finger.plan.lostMm) / finger.plan.fullMm;
  if (Math.abs(jump) <= limit) return undefined;
  const scatter = jumps.length > 1 ? sdOf(jumps) : 0;
  return found('slippingString', [finger], confidenceOf(Math.abs(jump) / limit), {
    evidence: [
      `After a fast movement the ${finger.plan.name} came to rest ${percent(jump)} of the closure (${(jump * finger.plan.fullMm).toFixed(1)} mm of string) from where it had rested; play and friction explain ${percent(limit)}.`,
      ...(jumps.length > 1 ? [`${jumps.length} flicks, shifts scatter by ${percent(scatter)}.`] : []),
    ],
    cure: SLIP_CURE,
    rulesOut: ['Drift: the zero moves with the flick and stays still between flicks.'],
  });
}

/** Changes of a finger's two ends from the slow passage to its raw slow movement, share of the closure. */
interface EndChange {
  open: number;
  closed: number;
  /** Time between the two, s. */
  elapsedS: number;
}

function endChangeOf(hand: HandLook, finger: FingerLook): EndChange | undefined {
  const { rawSlow: raw, hand: passages, spanCounts, plan } = finger;
  const slow = passages.slow;
  const slowS = hand.evidence.hand.slow?.timesS;
  const rawS = hand.evidence.rawSlow[plan.slot]?.timesS;
  if (!raw || !slow || !slowS || !rawS || spanCounts <= 0 || slow.isHeldLow || slow.isHeldHigh)
    return undefined;
  return {
    open: (raw.low - countsOfTravel(finger, slow.range.low)) / spanCounts,
    closed: (raw.high - countsOfTravel(finger, slow.range.high)) / spanCounts,
    elapsedS: rawS[0]! - slowS[0]!,
  };
}

/** The same slow movement, seen twice: a string that slipped reaches less far, a drifting zero shifts both ends. */
function movedOf(hand: HandLook, finger: FingerLook, settled: Settled): Finding | undefined {
  const own = endChangeOf(hand, finger);
  if (!own) return undefined;
  const others = alive(hand, settled)
    .filter((other) => other !== finger)
    .map((other) => endChangeOf(hand, other))
    .filter((change) => change !== undefined);
  // People do not close alike twice: what the other fingers did as well counts as the hand's own.
  const usual = (end: 'open' | 'closed') =>
    others.length > 0 ? medianOf(others.map((other) => other[end])) : 0;
  const open = own.open - usual('open');
  const closed = own.closed - usual('closed');
  const both = Math.abs(open) < Math.abs(closed) ? open : closed;
  if (open * closed > 0 && Math.abs(both) > LEAST_SHIFT) return shifted(finger, both, own.elapsedS);
  if (closed < -LEAST_SHRINK && open > -LEAST_SHIFT) return shrunk(finger, closed);
  return undefined;
}

function shifted(finger: FingerLook, shift: number, elapsedS: number): Finding {
  return found('zeroDrift', [finger], confidenceOf(Math.abs(shift) / LEAST_SHIFT), {
    evidence: [
      `Both ends of the ${finger.plan.name} moved by ${percent(shift)} of the closure within ${elapsedS.toFixed(0)} s, ${percent((60 * shift) / elapsedS)} a minute; the other fingers’ did not.`,
    ],
    cure: DRIFT_CURE,
    rulesOut: [
      'Slipping string: it would take from the closed end only.',
      'Supply sag: the other fingers stay where they are.',
    ],
    orElse: ['slippingString'],
  });
}

function shrunk(finger: FingerLook, change: number): Finding {
  return found('slippingString', [finger], confidenceOf(-change / LEAST_SHRINK), {
    evidence: [
      `After the flicks the ${finger.plan.name} reaches ${percent(-change)} of the closure (${(-change * finger.plan.fullMm).toFixed(1)} mm of string) less far than before, while its open end stays: string was pulled out that the spool does not see.`,
    ],
    cure: SLIP_CURE,
    rulesOut: [
      'Drift: both ends would move.',
      'A hand that closed less: the other fingers closed as before.',
    ],
    orElse: ['zeroDrift'],
  });
}

function driftOf(hand: HandLook, finger: FingerLook): Finding | undefined {
  const travel = finger.hand.rest?.travel;
  const timesS = hand.evidence.hand.rest?.timesS;
  if (!travel || !timesS || travel.length < 50) return undefined;
  const part = Math.floor(travel.length / 8);
  const known = (values: Float64Array) => values.filter((v) => !Number.isNaN(v));
  const begin = known(travel.slice(0, part));
  const end = known(travel.slice(-part));
  if (begin.length === 0 || end.length === 0) return undefined;
  const drift = medianOf(end) - medianOf(begin);
  const lengthS = timesS[timesS.length - 1]! - timesS[0]!;
  if (Math.abs(drift) <= LEAST_DRIFT) return undefined;
  return found('zeroDrift', [finger], confidenceOf(Math.abs(drift) / LEAST_DRIFT), {
    evidence: [
      `The ${finger.plan.name}’s reading moved by ${percent(drift)} of the closure in ${lengthS.toFixed(0)} s at rest, ${percent((drift * 60) / lengthS)} a minute.`,
    ],
    cure: DRIFT_CURE,
    rulesOut: [
      'Slipping string: no fast movement came before.',
      'Supply sag: the other fingers stay where they are.',
    ],
  });
}
