import { flickTimesOf } from '../features/flicks.ts';
import { medianOf } from '../features/statistics.ts';
import { confidenceOf, type Finding } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';
import { flicksFor, movementOf } from '../movement.ts';
import { alive, found, type Rule } from './rule.ts';

/** Time by which a finger may open later than its neighbours do, s: people do not flick alike. Assumed. */
const LEAST_LAG_S = 0.06;

/** Strings that hang slack for a while when a finger opens fast: the spool winds in slower than the finger opens. */
export const slack: Rule = (hand, settled) => {
  const seen = alive(hand, settled)
    .map((finger) => ({ finger, lagS: lagOf(hand, finger) }))
    .filter((entry): entry is { finger: FingerLook; lagS: number } => entry.lagS !== undefined);
  if (seen.length < 2) return [];
  return seen.flatMap(({ finger, lagS }) => {
    const others = medianOf(seen.filter((entry) => entry.finger !== finger).map((entry) => entry.lagS));
    const usual = Math.max(0, others);
    const windInS = Number.isFinite(finger.plan.windInS) ? finger.plan.windInS : 0;
    const limit = LEAST_LAG_S + 0.5 * windInS;
    return lagS - usual > limit ? slackOf(finger, lagS, usual, limit) : [];
  });
};

/** Median time by which the way back of a finger's flicks takes longer than the way out, s. */
function lagOf(hand: HandLook, finger: FingerLook): number | undefined {
  const rows = hand.evidence.hand.flick;
  const movement = movementOf(finger, 'flick');
  if (!rows || !movement) return undefined;
  const lags = flicksFor(hand, finger)
    .map((flick) => flickTimesOf(movement, rows.timesS, flick))
    .filter((times) => times !== undefined)
    .map((times) => times.backS - times.outS);
  return lags.length > 0 ? medianOf(lags) : undefined;
}

function slackOf(finger: FingerLook, lagS: number, usual: number, limit: number): Finding {
  const ms = (s: number) => `${(1000 * s).toFixed(0)} ms`;
  return found('slackString', [finger], confidenceOf((lagS - usual) / limit), {
    evidence: [
      `The ${finger.plan.name} takes ${ms(lagS)} longer to open than to close when flicked; its neighbours take ${ms(usual)}. The spring should wind the whole stroke in within ${ms(finger.plan.windInS)}.`,
    ],
    cure: [
      'The spring does not keep up: give it a turn more of preload, look for a spool that rubs, and turn the potentiometer’s shaft by hand: stiff ones (up to 100 gf·cm is in order) need a stronger spring.',
      'Pull the string out by hand and let it go: it must snap back at once.',
    ],
    rulesOut: [
      'Friction in the guides: that leaves a gap in slow movement as well.',
      'Smoothing: the neighbours have the same.',
    ],
  });
}
