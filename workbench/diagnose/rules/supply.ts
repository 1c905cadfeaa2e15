import { boardFacts } from '../../../firmware/boards/boards.ts';
import { commonShareOf } from '../features/common-share.ts';
import { type Dips, dipsOf, runningMedian } from '../features/dips.ts';
import { correlationOf, medianOf, quantileOf, sortedOf } from '../features/statistics.ts';
import { medianRows } from '../features/travel-rows.ts';
import { confidenceOf, type Finding, percent } from '../finding.ts';
import { countsOfTravel, type FingerLook, type HandLook } from '../look.ts';
import { rowRateHz } from '../movement.ts';
import { WRONG_SIGMAS } from '../raw-look.ts';
import { alive, found, type Rule } from './rule.ts';

/** Change of the common level at rest beyond the planned sag that is told: bands and hands hide less. Assumed. */
const LEAST_SAG = 0.012;
/** Fewest dips, and the share of them that go down. Assumed. */
const LEAST_DIPS = 3;
const DOWN = 0.85;
/** Time over which the common level is smoothed, s. */
const SMOOTH_S = 0.1;
/** Falls longer than this are no dips of a radio, s (some milliseconds in espressif/esp-idf#1096). Assumed. */
const LONGEST_DIP_S = 0.06;

/** What all channels do together: the supply sags, or something pulls it down for moments. */
export const supply: Rule = (hand, settled) => {
  const fingers = alive(hand, settled);
  const findings: Finding[] = [];
  const dips = dipsIn(hand, fingers);
  if (dips) findings.push(dips);
  // Smoothing draws short dips out: they would look like a sag.
  const sag = sagIn(hand, fingers, dips !== undefined);
  if (sag) findings.push(sag);
  return findings;
};

function isShort(finger: FingerLook, dips: Dips): boolean {
  return dips.rows <= Math.max(1, LONGEST_DIP_S * finger.rawRest!.rateHz);
}

function dipsIn(hand: HandLook, fingers: FingerLook[]): Finding | undefined {
  const seen: { finger: FingerLook; dips: Dips; ofLevel: number }[] = [];
  for (const finger of fingers) {
    const raw = finger.rawRest;
    if (!raw) continue;
    const limit = WRONG_SIGMAS * Math.max(raw.frameSd, 0.6 * raw.ownSd, 1);
    const dips = dipsOf(raw.bursts.middle, limit);
    if (dips.count >= 1) seen.push({ finger, dips, ofLevel: dips.depth / Math.max(1, raw.median) });
  }
  const strong = seen.filter(
    ({ finger, dips }) => dips.count >= LEAST_DIPS && dips.downShare >= DOWN && isShort(finger, dips),
  );
  // One channel alone dips only where the chip itself pulls its pin down.
  const { dippingPins } = boardFacts(hand.rig.board);
  if (strong.length < 2 && !strong.some(({ finger }) => dippingPins.includes(finger.plan.finger.pin)))
    return undefined;
  const worst = strong.reduce((a, b) => (b.dips.count > a.dips.count ? b : a));
  const rateHz = worst.finger.rawRest!.rateHz;
  return found(
    'radioDips',
    strong.map(({ finger }) => finger),
    Math.min(0.95, confidenceOf(worst.dips.count / LEAST_DIPS) + 0.2),
    {
      evidence: [
        `${strong.map(({ finger, dips }) => `${finger.plan.name} ${dips.count}`).join(', ')} short falls at rest, ${percent(worst.ofLevel)} of the level deep and ${((1000 * worst.dips.rows) / rateHz).toFixed(0)} ms long (median); hardly any rises.`,
      ],
      cure: [
        'Switch the radio off for a try: if the falls go, it pulls the supply down for moments. Add 100 µF or more at the board’s supply, and shorten its leads.',
        'GPIO 36 and 39 of the ESP32 are pulled low by the chip itself when its radio or converter powers up (espressif/esp-idf#1096): move the finger to GPIO 32 to 35.',
      ],
      rulesOut: [
        'Supply sag: that is slow, these last some milliseconds.',
        'Spikes: whole frames fall, not single readings, and never rise.',
      ],
    },
  );
}

/** Level of each finger at rest against its own median. */
function ratiosOf(finger: FingerLook): Float64Array | undefined {
  const travel = finger.hand.rest?.travel;
  if (!travel || travel.length < 50) return undefined;
  const levels = travel.map((t) => countsOfTravel(finger, t));
  const usual = medianOf(levels);
  return usual > 50 ? levels.map((level) => level / usual) : undefined;
}

function sagIn(hand: HandLook, fingers: FingerLook[], hasDips: boolean): Finding | undefined {
  const rows = hand.evidence.hand.rest;
  const measured = measuredSag(hand);
  if (hasDips && measured === 0) return undefined;
  if (!rows) return undefined;
  const ratios = fingers.map(ratiosOf).filter((ratio) => ratio !== undefined);
  if (ratios.length < 2) return undefined;
  const reach = Math.max(1, Math.round((SMOOTH_S * rowRateHz(rows.timesS)) / 2));
  const smooth = ratios.map((ratio) => runningMedian(ratio, reach));
  const common = medianRows(smooth);
  const sorted = sortedOf(common);
  const depth = quantileOf(sorted, 0.98) - quantileOf(sorted, 0.02);
  const limit = 2 * hand.rig.supply.sag + LEAST_SAG;
  const alike = smooth.filter((ratio) => correlationOf(filled(ratio), filled(common)) > 0.8).length;
  if (Math.max(depth, measured) <= limit || (alike < Math.max(2, 0.6 * ratios.length) && measured <= limit))
    return undefined;
  return found('supplySag', fingers, confidenceOf(Math.max(depth, measured) / limit), {
    evidence: [
      `At rest ${alike} of ${ratios.length} fingers rise and fall together (common share ${commonShareOf(smooth.map(filled)).toFixed(2)}), in proportion to their readings, by ${percent(depth)}; planned is a sag of ${percent(hand.rig.supply.sag)}.`,
      ...(measured > 0 ? [`The measured supply moved by ${percent(measured)}.`] : []),
    ],
    cure: [
      'Check with a multimeter at the potentiometers’ supply while the radio and all that draws current is at work: it should stay within half a percent. Thicker or shorter leads, a regulator of their own for the potentiometers, 100 µF beside them.',
      'Or measure the supply: with a "rail" pin the board takes the sag out.',
    ],
    rulesOut: [
      'Radio dips last some milliseconds.',
      'Drift of one finger leaves the others where they are.',
      'A hand that moves shifts fingers by travel, not in proportion to their readings.',
    ],
  });
}

function filled(row: Float64Array): Float64Array {
  return row.map((v) => (!Number.isNaN(v) ? v : 1));
}

/** Largest departure of the measured supply from its median, share; 0 where it is not measured. */
function measuredSag(hand: HandLook): number {
  const mv = hand.evidence.health.map((row) => row.supplyMv).filter((v) => v !== undefined);
  if (mv.length < 3) return 0;
  return (Math.max(...mv) - Math.min(...mv)) / medianOf(mv);
}
