import { restLevelsOf } from '../features/flicks.ts';
import { medianOf, sdOf } from '../features/statistics.ts';
import { confidenceOf, type Finding, percent } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';
import { flicksFor, rowRateHz } from '../movement.ts';
import { alive, found, type Rule } from './rule.ts';

/** Shift of the zero over a flick that is told, share of the closure, beside play. Assumed. */
const LEAST_JUMP = 0.025;
/** Drift of a resting finger that is told, share of the closure. Assumed. */
const LEAST_DRIFT = 0.02;
/** Time next to a flick's half height that is left out, and rest that is looked at, s. */
const CLEAR_S = 0.35;
const WINDOW_S = 0.2;

/** Zeros that do not stay where they were: strings that slip, readings that drift. */
export const zero: Rule = (hand, settled) =>
  (settled.isUnsteady ? [] : alive(hand, settled))
    .filter((finger) => !settled.odd.has(finger.plan.slot))
    .flatMap((finger) => slipOf(hand, finger) ?? driftOf(hand, finger) ?? []);

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
    cure: [
      'Mark the string where it enters the spool and flick again: if the mark moved, the knot or the winding slips. If not, look for a spool that slips on its shaft (flat and grub screw) and for a skin that does not slide back under the fastening.',
      'The zero command puts the zero right again for now and keeps the span.',
    ],
    rulesOut: ['Drift: the zero moves with the flick and stays still between flicks.'],
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
    cure: [
      'Hold the string at the spool: if the reading still drifts, it is electrical (a warming regulator or potentiometer, a bad contact). If it stops, the string creeps in its guides or the hand moved.',
      'Capture the zero after the build has warmed up.',
    ],
    rulesOut: [
      'Slipping string: no fast movement came before.',
      'Supply sag: the other fingers stay where they are.',
    ],
  });
}
