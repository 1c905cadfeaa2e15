import type { BadPlace } from '../features/wrong-readings.ts';
import { confidenceOf, counts, type Finding, percent } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';
import { alive, found, type Rule } from './rule.ts';

/** Bad frames of a place against what its share of the time would give, and fewest of them. Assumed. */
const CROWDED = 3;
const LEAST_BAD = 8;
/** Share of the frames at that place that are bad at least. Assumed. */
const LEAST_THERE = 0.06;
/** Share of the bad frames that lie there at least. Assumed. */
const LEAST_HELD = 0.6;
/** Spikes may be twice as frequent as planned: the plan's figure is a guess itself. Assumed. */
const SPIKE_FACTOR = 2;

/** Wrong readings: anywhere (spikes) or at one place of the travel (dirt on the track). */
export const wrongReadings: Rule = (hand, settled) => {
  const findings: Finding[] = [];
  const spiky: FingerLook[] = [];
  for (const finger of alive(hand, settled)) {
    const dirty = settled.isUnsteady ? undefined : dirtyOf(finger);
    if (dirty) findings.push(dirty);
    else if (spikesOver(hand, finger) > 1) spiky.push(finger);
  }
  if (spiky.length > 0) findings.push(spikes(hand, spiky));
  return findings;
};

/** What helps against dirt on the track. */
export const DIRT_CURE = [
  'Turn the shaft from end to end twenty times; if that does not help, use contact cleaner made for potentiometers, or change the part.',
  'Check with a multimeter, supply off: ohms from the middle leg to one end, turning slowly over that place, must not jump.',
];

/** Bad frames of a place against its share of the time. */
function crowdOf(place: BadPlace): number {
  return place.held / Math.max(place.visited, 0.05);
}

/** Whether the bad frames of a slow movement gather at one place. */
export function isCrowded(place: BadPlace): boolean {
  const { count, shareThere, held } = place;
  return count >= LEAST_BAD && shareThere >= LEAST_THERE && crowdOf(place) >= CROWDED && held >= LEAST_HELD;
}

function dirtyOf(finger: FingerLook): Finding | undefined {
  const place = finger.rawSlow?.place;
  if (!place || !isCrowded(place)) return undefined;
  const crowd = crowdOf(place);
  return found('dirtyWiper', [finger], Math.min(0.96, confidenceOf((2 * crowd) / CROWDED)), {
    evidence: [
      `${place.count} raw frames of the slow movement jump by ${counts(place.sizeCounts)} (median), ${percent(place.held, 0)} of them at ${percent(place.at, 0)} of the travel, where only ${percent(place.visited, 0)} of the frames lie: ${percent(place.shareThere, 0)} of the frames there are bad.`,
    ],
    cure: DIRT_CURE,
    rulesOut: ['Spikes: those come anywhere; these come at one place.'],
    orElse: [],
  });
}

/** Isolated wrong readings over what the plan allows; above 1 is too many. */
function spikesOver(hand: HandLook, finger: FingerLook): number {
  const { count, allowed } = spikeCount(hand, finger);
  return count / allowed;
}

function spikeCount(hand: HandLook, finger: FingerLook) {
  let count = 0;
  let readings = 0;
  for (const raw of [finger.rawRest, finger.rawSlow]) {
    count += raw?.isolated.count ?? 0;
    readings += raw?.readings ?? 0;
  }
  const planned = SPIKE_FACTOR * hand.rig.noise.spikeShare * readings;
  // Four standard deviations of a Poisson count, and two for small counts.
  return { count, readings, allowed: planned + 4 * Math.sqrt(planned) + 2 };
}

function spikes(hand: HandLook, fingers: FingerLook[]): Finding {
  const worst = fingers.reduce((a, b) => (spikesOver(hand, b) > spikesOver(hand, a) ? b : a));
  const { count, readings } = spikeCount(hand, worst);
  const sizes = [worst.rawRest, worst.rawSlow].map((raw) => raw?.isolated.sizeCounts ?? 0);
  return found('spikes', fingers, confidenceOf(1.2 * spikesOver(hand, worst)), {
    evidence: [
      `${count} of the ${worst.plan.name}’s ${readings} single readings (${percent(count / readings, 2)}) stand alone, ${counts(Math.max(...sizes))} off (median), with good ones on both sides; planned are ${percent(hand.rig.noise.spikeShare, 2)}.`,
    ],
    cure: [
      'Look at what works at the moment of a spike: the radio (espressif/esp-idf#8266 saw more than 1000 counts while Wi-Fi was sending), a servo, a switching converter. Add 100 µF at the board’s supply and 100 nF at the pins.',
      'A median or clip before the mean keeps them out: choose again with this spike share in the rig file.',
    ],
    rulesOut: [
      'Dirty wiper: these do not gather at one place of the travel.',
      'Radio dips: those pull several channels down together.',
    ],
  });
}
