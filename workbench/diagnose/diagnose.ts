import type { Rig } from '../../sim/rig/rig.ts';
import type { Evidence } from './evidence.ts';
import { type Diagnosis, FAULT_KINDS, type FaultKind, type Finding, type Unjudged } from './finding.ts';
import { lookAt } from './look.ts';
import { converterNoise } from './rules/converter-noise.ts';
import { coupling } from './rules/coupling.ts';
import { direction } from './rules/direction.ts';
import { noWiper } from './rules/no-wiper.ts';
import { range } from './rules/range.ts';
import { type Rule, type Settled, slotsOf } from './rules/rule.ts';
import { slack } from './rules/slack.ts';
import { slowMovement } from './rules/slow-movement.ts';
import { still } from './rules/still.ts';
import { supply } from './rules/supply.ts';
import { wholeRange } from './rules/whole-range.ts';
import { wrongReadings } from './rules/wrong-readings.ts';
import { zero } from './rules/zero.ts';
import { unjudgedOf } from './unjudged.ts';

/** Faults after which a finger's readings mean no movement. */
const DEADLY: ReadonlySet<FaultKind> = new Set(['openWiper', 'missingLeg', 'frozen', 'twoLevels', 'samePin']);
/** Faults that make a finger's range and ends look wrong by themselves. */
const ODD: ReadonlySet<FaultKind> = new Set([
  'reversed',
  'deadEnd',
  'endStop',
  'saturated',
  'slackString',
  'friction',
  'slippingString',
  'zeroDrift',
  'swapped',
  'samePin',
]);

/** Faults that move all levels where they concern the whole hand. */
const UNSTEADY: ReadonlySet<FaultKind> = new Set(['supplySag', 'radioDips', 'rangeChanged']);

/** Faults that only show when every finger was asked to move all the way, in order, and back to where it was. */
const GUIDED_ONLY: ReadonlySet<FaultKind> = new Set([
  'swapped',
  'rangeChanged',
  'legResistance',
  'deadEnd',
  'endStop',
  'notMoving',
  'friction',
  'slackString',
  'slippingString',
  'zeroDrift',
  'reversed',
]);

/** Rules in the order in which they may rely on each other: dead channels first, ends last. */
const STAGES: readonly (readonly Rule[])[] = [
  [still],
  [noWiper],
  [supply],
  [direction, coupling],
  [wholeRange],
  [wrongReadings],
  [converterNoise],
  [slowMovement, slack],
  [zero],
  [range],
];

/**
 * Names the faults of a hand controller from what it sends. Nothing is changed on the board.
 * @param evidence of a guided session or of a recording; what is missing is told as not judged
 * @param rig as planned: its tolerances and noise set the limits
 */
export function diagnose(evidence: Evidence, rig: Rig): Diagnosis {
  const hand = lookAt(evidence, rig);
  const settled: Settled = { dead: new Set(), odd: new Set(), dirty: new Set(), isUnsteady: false };
  const findings: Finding[] = [];
  for (const stage of STAGES) {
    const news = stage.flatMap((rule) => rule(hand, settled));
    for (const finding of news) {
      if (!evidence.isGuided && GUIDED_ONLY.has(finding.fault)) continue;
      if (isTold(findings, finding)) continue;
      findings.push(finding);
      const slots = slotsOf(finding.fingers);
      if (DEADLY.has(finding.fault)) for (const slot of slots) settled.dead.add(slot);
      if (finding.fault === 'dirtyWiper') for (const slot of slots) settled.dirty.add(slot);
      if (UNSTEADY.has(finding.fault))
        settled.isUnsteady ||= 2 * finding.fingers.length > hand.fingers.length;
      if (ODD.has(finding.fault)) for (const slot of slots) settled.odd.add(slot);
    }
  }
  findings.sort((a, b) => b.confidence - a.confidence);
  const named = new Set(findings.map((finding) => finding.fault));
  return {
    findings,
    clear: FAULT_KINDS.filter((kind) => !named.has(kind) && (evidence.isGuided || !GUIDED_ONLY.has(kind))),
    unjudged: [...(evidence.isGuided ? [] : [UNGUIDED]), ...unjudgedOf(hand)],
  };
}

const UNGUIDED: Unjudged = {
  what: 'Order, range, friction, ends and zero of the fingers: nobody was asked to move all of them, all the way.',
  next: 'Use the guided look of the workbench (view Diagnose).',
};

/** Whether the same fault of the same fingers is told already, by another sign of it. */
function isTold(findings: Finding[], next: Finding): boolean {
  const same = findings.find(
    (finding) => finding.fault === next.fault && finding.fingers.join() === next.fingers.join(),
  );
  if (!same || next.fault === 'deadEnd') return false;
  same.confidence = Math.max(same.confidence, next.confidence);
  same.evidence.push(...next.evidence);
  for (const cure of next.cure) if (!same.cure.includes(cure)) same.cure.push(cure);
  return true;
}
