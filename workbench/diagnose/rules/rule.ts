import { FINGER_NAMES, type FingerName } from '../../../sim/rig/rig.ts';
import type { FaultKind, Finding } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';

/** What earlier rules have settled. */
export interface Settled {
  /** Slots whose readings mean no movement: later rules leave them alone. */
  dead: Set<number>;
  /** Slots with a dirty track: at rest on that place they are noisy as well. */
  dirty: Set<number>;
  /** Slots of which a fault is known that explains a wrong range. */
  odd: Set<number>;
  /** The whole hand's readings move by themselves, or on another scale: levels say nothing about single fingers. */
  isUnsteady: boolean;
}

/** Looks for one family of faults. */
export type Rule = (hand: HandLook, settled: Settled) => Finding[];

/** Slots of a finding's fingers. */
export function slotsOf(names: readonly FingerName[]): number[] {
  return names.map((name) => FINGER_NAMES.indexOf(name));
}

/** Fingers that still mean something. */
export function alive(hand: HandLook, settled: Settled): FingerLook[] {
  return hand.fingers.filter((finger) => !settled.dead.has(finger.plan.slot));
}

/** A finding with what is usual left empty. */
export function found(
  fault: FaultKind,
  fingers: readonly FingerLook[],
  confidence: number,
  words: { evidence: string[]; cure: string[]; rulesOut?: string[]; orElse?: FaultKind[] },
): Finding {
  return {
    fault,
    fingers: fingers.map((finger) => finger.plan.name),
    confidence: Math.max(0, Math.min(0.99, confidence)),
    evidence: words.evidence,
    cure: words.cure,
    rulesOut: words.rulesOut ?? [],
    orElse: words.orElse ?? [],
  };
}
