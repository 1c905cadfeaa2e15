import {
  type AttenuationDb,
  DEFAULT_ATTENUATION_DB,
  expectedCounts,
  voltsAt,
} from '../../../firmware/boards/adc-curve.ts';
import { boardFacts } from '../../../firmware/boards/boards.ts';
import { medianOf } from '../features/statistics.ts';
import { confidenceOf, counts, type Finding, percent } from '../finding.ts';
import { type FingerLook, type HandLook, seenEnds } from '../look.ts';
import { alive, found, type Rule } from './rule.ts';

/** Departure of all closed ends together that is told: supply and reference explain less (see `expect.ts`). Assumed. */
const LEAST_RATIO = 1.25;
/** With captured ends nothing but a change of the hand as a whole explains this. Assumed. */
const LEAST_CAPTURED = 1.1;
/** By how much the fingers' ratios may differ and still be one. Assumed. */
const ALIKE = 0.3;
const OTHERS: AttenuationDb[] = [0, 2.5, 6];

/** What all fingers' ends have in common: another range of the converter, another supply; and pins beyond its range. */
export const wholeRange: Rule = (hand, settled) => {
  const fingers = alive(hand, settled);
  const ratios = fingers.map((finger) => ratioOf(finger)).filter((ratio) => ratio !== undefined);
  const usual = ratios.length > 0 ? medianOf(ratios) : 1;
  const limit = hand.evidence.isCalibrated ? LEAST_CAPTURED : LEAST_RATIO;
  const size = Math.max(usual, 1 / usual);
  const alike = ratios.filter((ratio) => Math.abs(ratio / usual - 1) < ALIKE).length;
  if (ratios.length >= 2 && size > limit && alike >= 0.7 * ratios.length && alike >= 2) {
    return [changed(hand, fingers, usual, confidenceOf((size - 1) / (limit - 1)))];
  }
  return fingers.flatMap((finger) => beyondRange(hand, finger) ?? []);
};

/** Closed end seen over the one expected; a reading at the converter's top may be anything above. */
function ratioOf(finger: FingerLook): number | undefined {
  const seen = seenEnds(finger);
  const expected = Math.max(finger.openCounts, finger.openCounts + finger.spanCounts);
  return seen && expected > 0 ? Math.max(seen.closed, seen.open) / expected : undefined;
}

function changed(hand: HandLook, fingers: FingerLook[], ratio: number, confidence: number): Finding {
  const { board } = hand.rig;
  const first = fingers[0]!;
  const seen = seenEnds(first)!;
  const expected = first.openCounts + first.spanCounts;
  const volts = voltsAt(board, DEFAULT_ATTENUATION_DB, expected);
  const misses = OTHERS.map((db) => ({
    db,
    off: Math.abs(Math.log(Math.min(4095, expectedCounts(board, db, volts)) / seen.closed)),
  }));
  const best = misses.reduce((a, b) => (b.off < a.off ? b : a));
  return found('rangeChanged', hand.fingers, confidence, {
    evidence: [
      `All fingers’ closed ends read ${percent(ratio, 0)} of what they should, the ${first.plan.name}’s for instance ${counts(seen.closed)} instead of ${counts(expected)}.`,
      ...(ratio > 1 && best.off < 0.2
        ? [`That is what an attenuation of ${best.db} dB instead of ${DEFAULT_ATTENUATION_DB} dB gives.`]
        : []),
    ],
    cure: [
      'The program sets the converter’s range at its start: look for other code that calls analogRead options or setAtten, then load the program again.',
      'Check the supply with a multimeter: 5 V instead of 3.3 V at the potentiometers looks the same, and endangers the pins.',
    ],
    rulesOut: ['A leg or a resistor of one finger would not move the others.'],
    orElse: [],
  });
}

/** A pin that comes higher than any place of its track, beyond what the chip's maker vouches for. */
function beyondRange(hand: HandLook, finger: FingerLook): Finding | undefined {
  const seen = seenEnds(finger);
  const raw = finger.rawSlow;
  if (!seen || !raw) return undefined;
  const top = expectedCounts(
    hand.rig.board,
    DEFAULT_ATTENUATION_DB,
    boardFacts(hand.rig.board).adcRangeMv[1] / 1000,
  );
  const limit = 1.03 * Math.max(finger.plan.topCounts[1], Math.min(top, 4095));
  const high = Math.max(seen.closed, seen.open);
  const isStuck = raw.saturation.atTop > 0.02;
  if (high <= Math.min(limit, 4090) && !isStuck) return undefined;
  return found('saturated', [finger], isStuck ? 0.95 : confidenceOf((2 * high) / limit), {
    evidence: [
      isStuck
        ? `${percent(raw.saturation.atTop)} of the raw readings of the slow movement stand at 4095, the converter’s end.`
        : `GPIO ${finger.plan.finger.pin} reads up to ${counts(high)}; the track’s end gives ${counts(finger.plan.topCounts[1])} at most, and the chip’s maker vouches for ${counts(top)}.`,
    ],
    cure: [
      'The pin’s voltage is too high: the resistor above the potentiometer is missing, bridged or too small. "tautline size" proposes a pair.',
      'Check with a multimeter: at the pin there must be no more than the converter’s range, with the finger closed.',
    ],
    rulesOut: [
      'Missing ground leg: the reading still falls when the finger opens.',
      'Dead end: that stands at a level inside the range.',
    ],
  });
}
