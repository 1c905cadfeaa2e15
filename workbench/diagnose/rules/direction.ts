import { quantileOf, sortedOf } from '../features/statistics.ts';
import type { Finding } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';
import { flicksFor, wayOf } from '../movement.ts';
import { alive, found, type Rule } from './rule.ts';

/** Fingers that read backwards, and fingers that changed places. */
export const direction: Rule = (hand, settled) => {
  const fingers = alive(hand, settled);
  return [...fingers.filter((finger) => wayOf(finger) < 0).map(reversed), ...swapped(hand, fingers)];
};

function reversed(finger: FingerLook): Finding {
  const look = (finger.hand.slow ?? finger.hand.flick)!;
  const sorted = sortedOf(look.travel);
  return found('reversed', [finger], 0.95, {
    evidence: [
      `The ${finger.plan.name}’s travel falls from ${quantileOf(sorted, 0.98).toFixed(2)} to ${quantileOf(sorted, 0.02).toFixed(2)} when the hand closes; it should rise from 0 to 1.`,
    ],
    cure: [
      'Swap the potentiometer’s two outer legs, or wind the string round the spool the other way.',
      'Or capture the ends anew: the board takes a closed end below the open one. With the legs swapped the resistors at top and bottom then fit the wrong ends of the track.',
    ],
    rulesOut: ['Wrong ends: those shift or stretch the travel but do not turn it round.'],
  });
}

function swapped(hand: HandLook, fingers: FingerLook[]): Finding[] {
  const seen = fingers
    .map((finger) => ({ finger, flicks: flicksFor(hand, finger) }))
    .filter(({ flicks }) => flicks.length > 0)
    .map(({ finger, flicks }) => ({ finger, row: flicks[0]!.from }));
  const order = [...seen].sort((a, b) => a.row - b.row);
  const findings: Finding[] = [];
  for (let i = 0; i < seen.length; i++) {
    const j = order.indexOf(seen[i]!);
    // A pair stands at each other's places; fingers that are merely out of step belong to no pair.
    if (j <= i || order.indexOf(seen[j]!) !== i) continue;
    const a = seen[i]!.finger;
    const b = seen[j]!.finger;
    findings.push(
      found('swapped', [a, b], 0.94, {
        evidence: [
          `Asked to move one after the other from thumb to little finger, the ${b.plan.name} came as number ${i + 1} and the ${a.plan.name} as number ${j + 1}.`,
        ],
        cure: [
          `Swap the wires at GPIO ${a.plan.finger.pin} and GPIO ${b.plan.finger.pin}, or the two pins in the rig file; then bundle and load again.`,
          'If you flicked them in another order, repeat the passage.',
        ],
        rulesOut: ['Same pin: the two fingers move apart from each other.'],
      }),
    );
  }
  return findings;
}
