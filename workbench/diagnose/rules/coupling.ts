import type { Flick } from '../features/flicks.ts';
import { correlationOf, lineOf, medianOf } from '../features/statistics.ts';
import { confidenceOf, counts, type Finding, percent } from '../finding.ts';
import { countsOfTravel, type FingerLook, type HandLook } from '../look.ts';
import { flicksFor, rowRateHz } from '../movement.ts';
import { alive, found, type Rule } from './rule.ts';

/** Two channels whose levels stay this near together all the time are one pin; share of the planned span. Assumed. */
const SAME_SHARE = 0.03;
/** Coupling from which it is told: a fader moved its neighbour by 1 % in opentx/opentx#2639. Assumed. */
const LEAST_COUPLING = 0.008;
/** Coupling below which the finger itself may have moved along: a hand's fingers do. Assumed. */
const SURE_COUPLING = 0.03;
/** Departure of a frame's first reading from the rest of it that is told, counts. Assumed. */
const LEAST_RESIDUE = 5;
/** A coupling must explain the neighbour's movement to this correlation, a strong one less sharply. Assumed. */
function leastCorrelation(coefficient: number): number {
  return Math.abs(coefficient) > 0.05 ? 0.75 : 0.9;
}
/** Rows of a flick that are looked at, beyond its half height, s. */
const ROUND_S = 0.3;

/** Fingers that move each other's readings. */
export const coupling: Rule = (hand, settled) => {
  const fingers = alive(hand, settled);
  const same = samePins(hand, fingers);
  if (settled.isUnsteady) return same;
  const twins = new Set(same.flatMap((finding) => finding.fingers));
  return [
    ...same,
    ...residues(fingers),
    ...crosstalk(
      hand,
      fingers.filter((finger) => !twins.has(finger.plan.name)),
    ),
  ];
};

function levels(finger: FingerLook, passage: 'slow' | 'flick'): Float64Array | undefined {
  return finger.hand[passage]?.travel.map((travel) => countsOfTravel(finger, travel));
}

function samePins(hand: HandLook, fingers: FingerLook[]): Finding[] {
  const findings: Finding[] = [];
  for (let i = 0; i < fingers.length; i++) {
    for (let j = i + 1; j < fingers.length; j++) {
      const a = fingers[i]!;
      const b = fingers[j]!;
      const one = levels(a, 'flick');
      const two = levels(b, 'flick');
      if (!one || !two) continue;
      const differences = one
        .map((level, row) => Math.abs(level - two[row]!))
        .filter((d) => !Number.isNaN(d));
      if (differences.length < one.length / 2) continue;
      const correlation = correlationOf(filled(one), filled(two));
      const far = differences.sort()[Math.floor(0.97 * differences.length)]!;
      if (correlation < 0.98 || far > SAME_SHARE * a.plan.spanCounts[0] + 10 * hand.rig.noise.sdCounts)
        continue;
      findings.push(
        found('samePin', [a, b], 0.96, {
          evidence: [
            `${a.plan.name} and ${b.plan.name} gave the same level within ${counts(far)} all through the passage in which each finger moves alone (correlation ${correlation.toFixed(3)}).`,
          ],
          cure: [
            `Both are read at one pin, or their wiper wires touch: check that GPIO ${a.plan.finger.pin} and GPIO ${b.plan.finger.pin} each go to their own potentiometer.`,
            'Check with a multimeter, supply off and one of the two wires off: between the two pins there must be some kilohm at least.',
          ],
          rulesOut: [
            'Crosstalk: that passes on a part of the movement; here all of it arrives, level and all.',
          ],
        }),
      );
    }
  }
  return findings;
}

function filled(row: Float64Array): Float64Array {
  let last = 0;
  return row.map((v) => {
    if (!Number.isNaN(v)) last = v;
    return last;
  });
}

function crosstalk(hand: HandLook, fingers: FingerLook[]): Finding[] {
  const rows = hand.evidence.hand.flick;
  if (!rows) return [];
  const flicks = fingers.map((finger) => flicksFor(hand, finger));
  const around = Math.round(ROUND_S * rowRateHz(rows.timesS));
  const findings: Finding[] = [];
  fingers.forEach((to, j) => {
    let best: { from: FingerLook; coefficient: number; correlation: number } | undefined;
    fingers.forEach((from, i) => {
      if (i === j) return;
      const alone = flicks[i]!.filter((flick) => !flicks[j]!.some((own) => overlap(flick, own, around)));
      const seen = couplingIn(levels(from, 'flick')!, levels(to, 'flick')!, alone, around);
      if (
        !seen ||
        seen.correlation < leastCorrelation(seen.coefficient) ||
        Math.abs(seen.coefficient) < LEAST_COUPLING
      )
        return;
      if (!best || Math.abs(seen.coefficient) > Math.abs(best.coefficient)) best = { from, ...seen };
    });
    if (best) findings.push(passedOn(best.from, to, best.coefficient, best.correlation));
  });
  return findings;
}

/** What is left of the channel read before, seen in the first reading of a frame. */
function residues(fingers: FingerLook[]): Finding[] {
  return fingers.flatMap((finger) => {
    const raw = finger.rawRest;
    if (!raw || Math.abs(raw.firstOff) <= LEAST_RESIDUE + (4 * raw.ownSd) / Math.sqrt(raw.frames)) return [];
    return found('crosstalk', [finger], confidenceOf(Math.abs(raw.firstOff) / LEAST_RESIDUE), {
      evidence: [
        `The first of the five readings of each raw frame is ${counts(raw.firstOff, 1)} off the others: what is left of the channel read before it.`,
      ],
      cure: [
        'Set "dummyRead" in the rig file, so that the first reading after a change of pin is thrown away, or fit 100 nF at the pin: about 50 counts were seen without in arduino/Arduino#3064.',
      ],
      rulesOut: ['Noise has no favourite among a frame’s readings.'],
    });
  });
}

function overlap(a: Flick, b: Flick, around: number): boolean {
  return a.from - around < b.to + around && b.from - around < a.to + around;
}

/** How far one level follows the other in and round some flicks. */
function couplingIn(from: Float64Array, to: Float64Array, flicks: readonly Flick[], around: number) {
  const x: number[] = [];
  const y: number[] = [];
  for (const flick of flicks) {
    const start = Math.max(0, flick.from - around);
    const end = Math.min(from.length, flick.to + around);
    const base = [medianOf(from.slice(start, start + 5)), medianOf(to.slice(start, start + 5))] as const;
    for (let row = start; row < end; row++) {
      if (Number.isNaN(from[row]) || Number.isNaN(to[row])) continue;
      x.push(from[row]! - base[0]);
      y.push(to[row]! - base[1]);
    }
  }
  if (x.length < 20) return undefined;
  return { coefficient: lineOf(x, y).slope, correlation: Math.abs(correlationOf(x, y)) };
}

function passedOn(from: FingerLook, to: FingerLook, coefficient: number, correlation: number): Finding {
  return found(
    'crosstalk',
    [to],
    Math.max(0.35, confidenceOf((1.5 * Math.abs(coefficient)) / SURE_COUPLING)),
    {
      evidence: [
        `When the ${from.plan.name} moves alone, the ${to.plan.name} reads ${percent(coefficient)} of its movement (correlation ${correlation.toFixed(2)}).`,
      ],
      cure: [
        'Hold the finger still with the other hand and flick its neighbour again: if the reading still moves, it is electrical.',
        `Then: fit 100 nF at GPIO ${to.plan.finger.pin}, give each wiper’s wire a ground of its own, or set "dummyRead" so that the first reading after a change of pin is thrown away.`,
        'Check with a multimeter, supply off: between the two pins there must be no less than the potentiometers’ own resistance.',
      ],
      rulesOut: ['Same pin: only a part of the movement arrives.'],
    },
  );
}
