import { FAULT_KINDS as SIMULATED_KINDS } from '../../sim/device/faults.ts';
import type { FingerName } from '../../sim/rig/rig.ts';

/** Faults that a diagnosis can name: those that the simulator can build in, and three that are no single fault. */
export const FAULT_KINDS = [...SIMULATED_KINDS, 'noise', 'wander', 'notMoving'] as const;
export type FaultKind = (typeof FAULT_KINDS)[number];

/** One fault that the evidence speaks for. */
export interface Finding {
  fault: FaultKind;
  /** Whom it concerns, in slot order; all wired fingers for a fault of the whole hand. */
  fingers: FingerName[];
  /** 0-1; how far the evidence stands above what a sound build may show. */
  confidence: number;
  /** What was seen, in sentences with numbers and units. */
  evidence: string[];
  /** What to do, in sentences. */
  cure: string[];
  /** Faults that look alike and why they are not it, in sentences. */
  rulesOut: string[];
  /** Faults that this evidence cannot tell it from. */
  orElse: FaultKind[];
}

/** What could not be judged, and what to record so that it can. */
export interface Unjudged {
  what: string;
  next: string;
}

/** The answer, plain data. */
export interface Diagnosis {
  /** Most certain first. */
  findings: Finding[];
  /** Kinds that were looked for and not found. */
  clear: FaultKind[];
  unjudged: Unjudged[];
}

/**
 * Confidence from a measured size and the limit that sound builds keep: 0.5 at the limit, 0.8 at twice, 0.95 at three
 * times and a half of it, never above 0.99. The law is assumed; only its order matters.
 * @param ratio size / limit, > 0
 */
export function confidenceOf(ratio: number): number {
  return Math.min(0.99, ratio ** 2 / (ratio ** 2 + 1));
}

/** 0.0312 → '3.1 %'. */
export function percent(share: number, digits = 1): string {
  return `${(100 * share).toFixed(digits)} %`;
}

export function counts(value: number, digits = 0): string {
  return `${value.toFixed(digits)} counts`;
}
