import type { Ends } from '../../firmware/chain/word-scale.ts';
import { INVALID_VALUE, STATUS_UNCALIBRATED, VALUE_COUNT } from '../../protocol/frame.ts';
import type { LiveFrame } from '../live/session-types.ts';
import { type Evidence, emptyEvidence, type HealthRow, type PassageName } from './evidence.ts';
import {
  type GrowingHand,
  type GrowingRaw,
  handRowsOf,
  newHandRows,
  newRawRows,
  pushHand,
  pushRaw,
  rawRowsOf,
} from './grow.ts';
import { findPassages, splitRaw } from './passages.ts';

/** What is being recorded: a passage of hand frames, or one channel's raw frames. */
export type GatherStep = { kind: PassageName } | { kind: 'rawRest' | 'rawSlow'; slot: number };

/** Steps of a raw frame's pace byte, s (protocol/SPEC.md). */
const PACE_STEP_S = 50e-6;
/** Health frames that are kept. */
const MOST_HEALTH = 600;

/** Collects frames into evidence. Memory is bounded: about 9 MB whatever comes. */
export interface Gatherer {
  /** Starts a passage anew; what it held before is forgotten. */
  begin(step: GatherStep): void;
  /** Ends the passage: frames are ignored, but for health. */
  end(): void;
  /** Takes any frame of the session; repeated and late ones are ignored. */
  take(frame: LiveFrame): void;
  /** What was collected so far. */
  evidence(): Evidence;
}

export interface GatherOptions {
  /** Ends that the board's words refer to, by slot, where the host knows them. */
  ends?: readonly (Ends | undefined)[];
}

/** A collector that is told which passage it hears. */
export function createGatherer(options: GatherOptions = {}): Gatherer {
  const hand: { [name in PassageName]?: GrowingHand } = {};
  const raw: Record<'rawRest' | 'rawSlow', (GrowingRaw | undefined)[]> = { rawRest: [], rawSlow: [] };
  const common = createCommon();
  let step: GatherStep | undefined;
  return {
    begin(next) {
      step = next;
      if (next.kind === 'rawRest' || next.kind === 'rawSlow') raw[next.kind][next.slot] = newRawRows();
      else hand[next.kind] = newHandRows();
    },
    end() {
      step = undefined;
    },
    take(frame) {
      common.take(frame);
      if (!step || frame.step < 1) return;
      if (step.kind === 'rawRest' || step.kind === 'rawSlow') {
        if (frame.kind === 'raw' && frame.joystick[0] === step.slot)
          takeRaw(raw[step.kind][step.slot]!, frame);
      } else if (frame.kind === 'hand') pushHand(hand[step.kind]!, frame.deviceS, frame.values);
    },
    evidence() {
      const evidence = common.evidence(options);
      for (const [name, rows] of Object.entries(hand) as [PassageName, GrowingHand][]) {
        evidence.hand[name] = handRowsOf(rows);
      }
      evidence.rawRest = raw.rawRest.map((rows) => rows && rawRowsOf(rows));
      evidence.rawSlow = raw.rawSlow.map((rows) => rows && rawRowsOf(rows));
      return evidence;
    },
  };
}

/** A collector for a recording that nobody led through: it finds rests, slow and fast movements by itself. */
export function createFreeGatherer(options: GatherOptions = {}): Pick<Gatherer, 'take' | 'evidence'> {
  const hand = newHandRows();
  const raw: (GrowingRaw | undefined)[] = [];
  const common = createCommon();
  return {
    take(frame) {
      common.take(frame);
      if (frame.step < 1) return;
      if (frame.kind === 'hand') pushHand(hand, frame.deviceS, frame.values);
      const slot = frame.joystick[0];
      if (frame.kind !== 'raw' || slot >= VALUE_COUNT) return;
      raw[slot] ??= newRawRows();
      takeRaw(raw[slot], frame);
    },
    evidence() {
      const evidence = common.evidence(options);
      evidence.isGuided = false;
      evidence.hand = findPassages(handRowsOf(hand));
      raw.forEach((rows, slot) => {
        if (!rows) return;
        const parts = splitRaw(rawRowsOf(rows));
        evidence.rawRest[slot] = parts.rest;
        evidence.rawSlow[slot] = parts.slow;
      });
      return evidence;
    },
  };
}

function takeRaw(rows: GrowingRaw, frame: LiveFrame): void {
  rows.paceS = frame.joystick[1] * PACE_STEP_S;
  pushRaw(rows, frame.deviceS, frame.values);
}

/** What both collectors keep: health frames and whether the board is calibrated. */
function createCommon() {
  const health: HealthRow[] = [];
  let isCalibrated = false;
  return {
    take(frame: LiveFrame): void {
      if (frame.kind === 'hand') isCalibrated = (frame.status & STATUS_UNCALIBRATED) === 0;
      if (frame.kind !== 'health') return;
      if (health.length >= MOST_HEALTH) health.splice(0, MOST_HEALTH / 2);
      const mv = frame.values[0]!;
      health.push({
        timeS: frame.deviceS,
        supplyMv: mv === INVALID_VALUE ? undefined : mv,
        errors: frame.values[3]!,
      });
    },
    evidence(options: GatherOptions): Evidence {
      return { ...emptyEvidence(), health: [...health], ends: [...(options.ends ?? [])], isCalibrated };
    },
  };
}
