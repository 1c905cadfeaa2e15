import { confidenceOf, counts, type Finding } from '../finding.ts';
import { type EndCounts, type LegFit, legFits } from '../leg-models.ts';
import { type FingerLook, type HandLook, seenEnds } from '../look.ts';
import { MOVES, wayOf } from '../movement.ts';
import { alive, found, type Rule } from './rule.ts';

/** Departure from captured ends that is told, share of the span: people open alike, but do not close alike. Assumed. */
const OPEN_OFF = 0.025;
const CLOSED_OFF = 0.06;
/** Departure beyond the corners of all tolerances, share of the least span. Assumed. */
const CORNER_OFF = 0.05;
/** A single resistance must explain both ends to this share of the span. Assumed. */
const FIT = 0.03;

/** A finger that stands this far along its travel was drawn out. Assumed. */
const STAYS_OUT = 0.5;

/** Fingers that do not move at all, and fingers whose ends lie elsewhere than they should. */
export const range: Rule = (hand, settled) =>
  (settled.isUnsteady ? [] : alive(hand, settled))
    .filter((finger) => !settled.odd.has(finger.plan.slot) && wayOf(finger) >= 0)
    .flatMap((finger) => lookAtFinger(hand, finger) ?? []);

function lookAtFinger(hand: HandLook, finger: FingerLook): Finding | undefined {
  const seen = seenEnds(finger);
  if (!seen) return undefined;
  if (Math.abs(seen.closed - seen.open) < MOVES * finger.plan.spanCounts[0]) return notMoving(finger, seen);
  return hand.evidence.isCalibrated ? againstCaptured(hand, finger, seen) : againstPlan(hand, finger, seen);
}

function notMoving(finger: FingerLook, seen: EndCounts): Finding {
  if ((seen.open - finger.openCounts) / finger.spanCounts > STAYS_OUT) return staysOut(finger, seen);
  return found('notMoving', [finger], 0.85, {
    evidence: [
      `The ${finger.plan.name} moved by ${counts(seen.closed - seen.open)} only in the slow passage, round ${counts(seen.open)}; a whole closing gives ${counts(finger.plan.spanCounts[0])} at least.`,
    ],
    cure: [
      'Look whether the spool turns with the finger. If not: string off its knot, spool loose on its shaft, spring without preload. If it does: the potentiometer’s shaft does not turn with it, or its outer legs carry the same voltage.',
    ],
    rulesOut: ['Frozen readings: this channel has noise.'],
    orElse: ['slackString', 'missingLeg', 'slippingString', 'endStop'],
  });
}

/** A spool that pulls nothing in stays where the finger has drawn it. */
function staysOut(finger: FingerLook, seen: EndCounts): Finding {
  return found('slackString', [finger], 0.8, {
    evidence: [
      `The ${finger.plan.name} stands at ${counts(seen.open)}, near its closed end, and did not come back when the hand opened: the spool winds nothing in.`,
    ],
    cure: [
      'Look at the string while you open the finger: if it hangs slack, the spring is unwound, broken or too weak for the potentiometer’s drag. Give it preload; turn the shaft by hand and feel whether it rubs.',
    ],
    rulesOut: [
      'Frozen readings: this channel has noise.',
      'String off its knot: the spring would have wound it in, to the open end.',
    ],
    orElse: ['endStop', 'notMoving'],
  });
}

function againstCaptured(hand: HandLook, finger: FingerLook, seen: EndCounts): Finding | undefined {
  const expected = { open: finger.openCounts, closed: finger.openCounts + finger.spanCounts };
  const span = Math.abs(finger.spanCounts);
  const off = Math.max(
    Math.abs(seen.open - expected.open) / span / OPEN_OFF,
    Math.abs(seen.closed - expected.closed) / span / CLOSED_OFF,
  );
  if (off <= 1) return undefined;
  const [best] = legFits(hand.rig, finger.plan.finger, expected, seen);
  return told(finger, seen, expected, confidenceOf(off), best!, FIT * span, 'captured');
}

function againstPlan(hand: HandLook, finger: FingerLook, seen: EndCounts): Finding | undefined {
  const { openCounts, closedCounts, spanCounts } = finger.plan;
  const beyond = (value: number, [low, high]: readonly [number, number]) =>
    Math.max(low - value, value - high, 0);
  const off =
    Math.max(
      beyond(seen.open, openCounts),
      beyond(seen.closed, closedCounts),
      beyond(seen.closed - seen.open, spanCounts),
    ) / spanCounts[0];
  if (off <= CORNER_OFF) return undefined;
  const { open, closed } = finger.plan.nominal;
  const expected = { open: 4096 * open, closed: 4096 * closed };
  const [best] = legFits(hand.rig, finger.plan.finger, expected, seen);
  return told(
    finger,
    seen,
    expected,
    confidenceOf(off / CORNER_OFF),
    best!,
    3 * FIT * spanCounts[0],
    'planned',
  );
}

const LEG_WORDS = { topLeg: 'above the potentiometer', bottomLeg: 'below the potentiometer' } as const;

function told(
  finger: FingerLook,
  seen: EndCounts,
  expected: EndCounts,
  confidence: number,
  fit: LegFit,
  fitCounts: number,
  word: 'captured' | 'planned',
): Finding {
  const what = `The ${finger.plan.name} runs from ${counts(seen.open)} to ${counts(seen.closed)}; ${word} are ${counts(expected.open)} to ${counts(expected.closed)}.`;
  if (fit.offCounts > fitCounts) {
    return found('rangeChanged', [finger], confidence, {
      evidence: [what, `No single resistance explains both ends: the best leaves ${counts(fit.offCounts)}.`],
      cure: [
        'Capture the ends again with the hand that wears it. If they move again: look for a string that was tied anew, a spool turned on its shaft, another supply voltage.',
      ],
      rulesOut: ['Resistance in a leg and a pull-up shift both ends in a fixed proportion.'],
      orElse: ['slackString', 'endStop'],
    });
  }
  const explained = `${Math.round(fit.ohm)} Ω explain both ends to ${counts(fit.offCounts)}`;
  if (fit.kind === 'pullUp') {
    return found('pullUp', [finger], confidence, {
      evidence: [what, `A resistor from the pin to the supply of about ${explained}.`],
      cure: [
        'The pin’s internal pull-up is on (45 kΩ on the ESP32), or a resistor is fitted to the wrong rail: set the pin’s mode to "analog"; GPIO 34 to 39 have no pull-up at all.',
        'Check with a multimeter: with the potentiometer off, the pin must not read the supply.',
      ],
      rulesOut: ['Resistance in a leg: it would shift the ends in another proportion.'],
      orElse: ['legResistance', 'rangeChanged'],
    });
  }
  return found('legResistance', [finger], confidence, {
    evidence: [what, `${explained}: added ${LEG_WORDS[fit.kind]}.`],
    cure: [
      `Solder the joints ${LEG_WORDS[fit.kind]} anew and look for a wrong resistor (4k7 for 470).`,
      'Check with a multimeter, supply off: from the outer leg to the rail must read the resistor that the rig file names, within its tolerance.',
    ],
    rulesOut: ['Ends that were captured on another hand shift without this proportion.'],
    orElse: ['rangeChanged'],
  });
}
