import { counts, type Finding, percent } from '../finding.ts';
import type { FingerLook, HandLook } from '../look.ts';
import { NOISE_SPREAD, type RawLook } from '../raw-look.ts';
import { found, type Rule } from './rule.ts';

/** Chance of such a run in a whole recording of a sound channel that is allowed. Assumed. */
const CHANCE = 1e-6;
/** Chance that two readings are equal is never taken as larger: chips with little noise repeat often. Assumed. */
const MOST_EQUAL = 0.9;
/** Gap between two levels over the spread at each, and in counts, from which they are two. Assumed. */
const APART = 10;
const APART_COUNTS = 40;
/** Gap over the whole range of the slow movement: a finger that moves fills its range. Assumed. */
const GAP_SHARE = 0.4;

/** Channels that give one value, or one of two, whatever the finger does. */
export const still: Rule = (hand) => {
  const same = allAlike(hand);
  return same
    ? [same]
    : hand.fingers.flatMap((finger) => frozenOf(hand, finger) ?? twoLevelsOf(finger) ?? []);
};

/** Every channel gives the same unmoving value: they are read through one pin, or none is. */
function allAlike(hand: HandLook): Finding | undefined {
  const raws = hand.fingers.map((finger) => finger.rawSlow ?? finger.rawRest);
  if (raws.length < 2 || raws.some((raw) => raw === undefined || raw.high > raw.low + 2)) return undefined;
  const values = raws.map((raw) => raw!.median);
  const spread = Math.max(...values) - Math.min(...values);
  if (spread > 2 || values[0] === 0 || values[0]! >= 4095) return undefined;
  return found('samePin', hand.fingers, 0.95, {
    evidence: [
      `All ${values.length} channels read ${counts(values[0]!)} and do not move: no pin by itself gives that.`,
    ],
    cure: [
      'The converter is not read at all: check that the interpreter’s build supports analog reads on this board, and that no pin is used for something else.',
      'Put one pin on 3.3 V and one on ground with a wire: their readings must go to the ends of the range.',
    ],
    rulesOut: ['Frozen readings of one channel: here all channels agree to two counts.'],
  });
}

/** Longest run of equal readings that chance allows. */
function longestByChance(readings: number, leastSd: number): number {
  // Probability that two normal readings round to the same code: 1 / (2 sd sqrt(pi)) for sd well above half a code.
  const equal = Math.min(MOST_EQUAL, 1 / (2 * Math.max(leastSd, 0.1) * Math.sqrt(Math.PI)));
  return Math.log(CHANCE / readings) / Math.log(equal);
}

function frozenOf(hand: HandLook, finger: FingerLook): Finding | undefined {
  const raws = [finger.rawRest, finger.rawSlow].filter((raw) => raw !== undefined);
  const leastSd = (0.75 * hand.rig.noise.sdCounts) / NOISE_SPREAD;
  const worst = raws.reduce<RawLook | undefined>(
    (best, raw) => (best === undefined || raw.repeats.longest > best.repeats.longest ? raw : best),
    undefined,
  );
  if (!worst) return undefined;
  const { longest, value } = worst.repeats;
  const allowed = longestByChance(worst.readings, leastSd);
  if (longest <= allowed || value <= finger.plan.openBelowCounts || value >= 4090) return undefined;
  const moved = finger.rawSlow && finger.rawSlow.high - finger.rawSlow.low > 0.1 * finger.plan.spanCounts[0];
  return found('frozen', [finger], moved ? 0.8 : 0.96, {
    evidence: [
      `GPIO ${finger.plan.finger.pin} read exactly ${counts(value)} ${longest} times in a row; noise of ${leastSd.toFixed(1)} counts and more allows ${Math.floor(allowed)}.`,
      ...(moved || !finger.rawSlow ? [] : ['It stayed the same while the hand was asked to close and open.']),
    ],
    cure: [
      'A real input always shows a little noise: this value comes from the converter or from a pin that is driven. Check that nothing else uses the pin (button, output, second program).',
      'Restart the board; if it stays, try the finger on another ADC1 pin.',
    ],
    rulesOut: [
      'A finger at rest: a rest has noise in every raw reading, this has none.',
      'Open wiper: that falls to ground.',
    ],
  });
}

function twoLevelsOf(finger: FingerLook): Finding | undefined {
  // A recording of a movement decides: an open wiper has two levels at rest, but moves between its falls.
  const raw = finger.rawSlow ?? finger.rawRest;
  const levels = raw?.twoLevels;
  if (raw && levels) {
    const gap = levels.high - levels.low;
    if (levels.apart < APART || gap < APART_COUNTS || levels.flips < 1) return undefined;
    // In a movement two levels fill all there is; at rest more than one change is needed, or the hand just moved.
    const isAll = levels.apart > 2 * APART && gap > GAP_SHARE * (raw.high - raw.low);
    if (raw === finger.rawSlow ? !isAll : levels.flips < 3) return undefined;
    return found('twoLevels', [finger], 0.93, {
      evidence: [
        `GPIO ${finger.plan.finger.pin} gave only two levels, ${counts(levels.low)} (${percent(levels.lowShare, 0)} of the time) and ${counts(levels.high)}, with ${levels.flips} changes and nothing in between.`,
      ],
      cure: [
        'Seen on ESP32-C3 boards without a cause found (esphome/issues#4983, esp-rs/esp-idf#468): read with another board, or try another pin and another attenuation.',
        'Check with a multimeter: if the voltage at the pin moves smoothly with the finger, it is the converter; if it jumps as well, it is a contact.',
      ],
      rulesOut: [
        'Spikes: those last one reading; these levels last.',
        'Loose wiper: between its falls to ground the reading would follow the finger.',
      ],
    });
  }
  return undefined;
}
