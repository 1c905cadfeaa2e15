import { FAULT_KINDS, type FaultKind, WHOLE_HAND_FAULTS } from '../../sim/device/faults.ts';
import { defaultRig, noisePreset } from '../../sim/rig/default-rig.ts';
import type { FingerName, Rig } from '../../sim/rig/rig.ts';
import { keys } from '../../sim/seed/mix.ts';
import { openStream, type Stream } from '../../sim/seed/stream.ts';
import { diagnose } from './diagnose.ts';
import type { Finding } from './finding.ts';
import { simulatedEvidence } from './simulated-session.ts';

/** Strengths at which every fault is tried: mild, clear, gross. */
export const STRENGTHS = [0.25, 0.5, 1] as const;

/** A fault that was put in. */
export interface PutIn {
  kind: FaultKind;
  /** Undefined = the whole hand. */
  finger: FingerName | undefined;
  strength: number;
}

/** What came of one session. */
export interface Outcome {
  putIn: PutIn[];
  findings: Pick<Finding, 'fault' | 'fingers' | 'orElse' | 'confidence'>[];
}

/** One row of the table. */
export interface KindScore {
  kind: string;
  /** By strength: sessions with the fault, those in which it was named, and those in which it was named or among those that it cannot be told from. */
  tried: number[];
  named: number[];
  within: number[];
  /** Findings of this kind, and those of them that meet a fault that was put in. */
  told: number;
  right: number;
}

export interface Confusion {
  sessions: number;
  healthy: number;
  /** Healthy sessions in which anything was found. */
  falseAlarms: number;
  kinds: KindScore[];
  /** Kinds found where they were not put in, by what was put in instead ('none' = a sound build). */
  mistaken: { putIn: string; found: string; times: number }[];
}

/**
 * Plays guided sessions on simulated controllers and counts what the diagnosis makes of them. In turn: each fault
 * alone at each strength; every fourth session a sound build, every eighth one with two faults. Parts are drawn from
 * their tolerances, every other session has captured ends.
 * @param sessions how many; 96 try each kind about three times alone
 * @param seed same seed, same table
 */
export function confusion(sessions: number, seed: number): Confusion {
  const outcomes: Outcome[] = [];
  for (let i = 0; i < sessions; i++) outcomes.push(playOne(i, seed));
  return tally(outcomes);
}

/** One session of the row. */
export function playOne(index: number, seed: number): Outcome {
  const stream = openStream(keys(0xd1a6, seed, index));
  const rig = drawRig(stream);
  const putIn = drawFaults(index, rig, stream);
  const evidence = simulatedEvidence({
    rig,
    seed: seed * 7919 + index,
    draw: 1 + index,
    isCalibrated: stream.uniform() < 0.5,
    faults: putIn.map(({ kind, finger, strength }) =>
      finger ? { kind, finger, strength } : { kind, strength },
    ),
  });
  const { findings } = diagnose(evidence, rig);
  return {
    putIn,
    findings: findings.map(({ fault, fingers, orElse, confidence }) => ({
      fault,
      fingers,
      orElse,
      confidence,
    })),
  };
}

function drawRig(stream: Stream): Rig {
  const noise = stream.uniform() < 0.5 ? 'quiet' : 'typical';
  return { ...defaultRig('esp32'), noise: noisePreset(noise) };
}

function drawFaults(index: number, rig: Rig, stream: Stream): PutIn[] {
  if (index % 4 === 3) return [];
  const alone = index - Math.floor(index / 4);
  const kind = FAULT_KINDS[alone % FAULT_KINDS.length]!;
  const strength = STRENGTHS[Math.floor(alone / FAULT_KINDS.length) % STRENGTHS.length]!;
  const names = rig.fingers.map((finger) => finger.name);
  const first = put(kind, strength, names, stream);
  if (index % 8 !== 6) return [first];
  const other = FAULT_KINDS[Math.floor(stream.uniform() * FAULT_KINDS.length)]!;
  return other === kind ? [first] : [first, put(other, 0.5, names, stream)];
}

function put(kind: FaultKind, strength: number, names: readonly FingerName[], stream: Stream): PutIn {
  const at = Math.floor(stream.uniform() * names.length);
  return { kind, strength, finger: WHOLE_HAND_FAULTS.includes(kind) ? undefined : names[at]! };
}

/** Whether a finding concerns the finger of a fault. */
function meets(finding: Outcome['findings'][number], { finger }: PutIn): boolean {
  return finger === undefined || finding.fingers.includes(finger);
}

/** Counts outcomes. */
export function tally(outcomes: readonly Outcome[]): Confusion {
  const scores = new Map<string, KindScore>();
  const score = (kind: string): KindScore => {
    const zeros = () => STRENGTHS.map(() => 0);
    const known = scores.get(kind) ?? {
      kind,
      tried: zeros(),
      named: zeros(),
      within: zeros(),
      told: 0,
      right: 0,
    };
    scores.set(kind, known);
    return known;
  };
  for (const kind of FAULT_KINDS) score(kind);
  const mistaken = new Map<string, { putIn: string; found: string; times: number }>();
  let healthy = 0;
  let falseAlarms = 0;
  for (const { putIn, findings } of outcomes) {
    if (putIn.length === 0) {
      healthy++;
      if (findings.length > 0) falseAlarms++;
    }
    for (const fault of putIn) {
      const of = score(fault.kind);
      const at = STRENGTHS.indexOf(fault.strength as (typeof STRENGTHS)[number]);
      const near = findings.filter((finding) => meets(finding, fault));
      of.tried[at]!++;
      if (near.some((finding) => finding.fault === fault.kind)) of.named[at]!++;
      if (near.some((finding) => finding.fault === fault.kind || finding.orElse.includes(fault.kind)))
        of.within[at]!++;
    }
    for (const finding of findings) {
      const of = score(finding.fault);
      of.told++;
      const isRight = putIn.some(
        (fault) =>
          meets(finding, fault) && (finding.fault === fault.kind || finding.orElse.includes(fault.kind)),
      );
      if (isRight) {
        of.right++;
        continue;
      }
      const key = `${putIn.map((fault) => fault.kind).join(' + ') || 'none'}`;
      const entry = mistaken.get(`${key}>${finding.fault}`) ?? { putIn: key, found: finding.fault, times: 0 };
      entry.times++;
      mistaken.set(`${key}>${finding.fault}`, entry);
    }
  }
  return {
    sessions: outcomes.length,
    healthy,
    falseAlarms,
    kinds: [...scores.values()],
    mistaken: [...mistaken.values()].sort((a, b) => b.times - a.times),
  };
}

/** The table as markdown. */
export function confusionTable(result: Confusion): string {
  const share = (part: number, whole: number) => (whole > 0 ? `${part}/${whole}` : '–');
  const lines = [
    `${result.sessions} sessions, ${result.healthy} of them of sound builds with ${result.falseAlarms} false alarms.`,
    '',
    '| fault | mild | clear | gross | or alike, clear | told | right |',
    '| --- | ---: | ---: | ---: | ---: | ---: | ---: |',
  ];
  for (const { kind, tried, named, within, told, right } of result.kinds) {
    const cells = STRENGTHS.map((_, i) => share(named[i]!, tried[i]!));
    lines.push(`| ${kind} | ${cells.join(' | ')} | ${share(within[1]!, tried[1]!)} | ${told} | ${right} |`);
  }
  return `${lines.join('\n')}\n`;
}
