import { counts, type Finding, percent } from '../finding.ts';
import type { FingerLook } from '../look.ts';
import type { RawLook } from '../raw-look.ts';
import { alive, found, type Rule } from './rule.ts';
import { DIRT_CURE, isCrowded } from './wrong-readings.ts';

/** Share of frames without a wiper from which a contact counts as lost for good. Assumed. */
const FOR_GOOD = 0.9;
/** Least share of such frames that is told: a single one may be damage. Assumed. */
const LEAST = 0.005;
/** A drop that begins this far above the lowest place of a movement is no low end. Share of the span, assumed. */
const DROPS_FROM = 0.15;

/** Wipers that hang in the air and potentiometers with a leg off: readings that no wiper in place can give. */
export const noWiper: Rule = (hand, settled) => alive(hand, settled).flatMap(lookAtFinger);

function lookAtFinger(finger: FingerLook): Finding[] {
  const raws = [finger.rawRest, finger.rawSlow].filter((raw) => raw !== undefined);
  if (raws.length === 0) return fromHand(finger);
  const limit = finger.plan.openBelowCounts;
  const share = lowShareOf(raws, limit);
  if (limit > 0 && share > FOR_GOOD) return [fallen(finger, share, limit)];
  const drops = dropsOf(raws, limit);
  const lifted = liftsOf(finger, limit);
  if (limit > 0 && share > LEAST && drops.fromAbove > drops.fromLow && !isOnePlace(finger))
    return [lifted ?? loose(finger, share, drops.fromAbove)];
  const high = raisedOf(finger, raws);
  if (high) return [high];
  const floating = floatingOf(finger);
  return floating ? [floating] : [];
}

/** Whether the bad readings gather at one place of the travel: that is dirt, though the wiper lifts there as well. */
function isOnePlace(finger: FingerLook): boolean {
  const place = finger.rawSlow?.place;
  return place !== undefined && isCrowded(place);
}

/** Spread of the levels from which a wiper lifts at one place, share of the movement, and fewest lifts. Assumed. */
const ONE_PLACE = 0.25;
const LEAST_LIFTS = 3;

/** Lifts that all begin at one place of the slow movement: dirt or a hole in the track. */
function liftsOf(finger: FingerLook, limit: number): Finding | undefined {
  const raw = finger.rawSlow;
  if (!raw) return undefined;
  const { middle } = raw.bursts;
  const from: number[] = [];
  for (let f = 3; f < middle.length; f++) {
    if (middle[f]! < limit && middle[f - 1]! >= limit) from.push(Math.max(middle[f - 3]!, middle[f - 2]!));
  }
  const spread = Math.max(...from) - Math.min(...from);
  if (from.length < LEAST_LIFTS || spread > ONE_PLACE * (raw.high - raw.low)) return undefined;
  return found('dirtyWiper', [finger], 0.8, {
    evidence: [
      `The wiper lifted ${from.length} times in the slow movement, each time between ${counts(Math.min(...from))} and ${counts(Math.max(...from))} of a range of ${counts(raw.low)} to ${counts(raw.high)}.`,
    ],
    cure: DIRT_CURE,
    rulesOut: ['Loose wire: that opens anywhere in the movement.'],
    orElse: ['openWiper'],
  });
}

function lowShareOf(raws: readonly RawLook[], limit: number): number {
  let low = 0;
  let frames = 0;
  for (const { bursts } of raws) {
    frames += bursts.middle.length;
    for (const middle of bursts.middle) if (middle < limit) low++;
  }
  return frames > 0 ? low / frames : 0;
}

/** Falls below the limit, by where they began. */
function dropsOf(raws: readonly RawLook[], limit: number): { fromAbove: number; fromLow: number } {
  let fromAbove = 0;
  let fromLow = 0;
  for (const raw of raws) {
    const { middle } = raw.bursts;
    const above = limit + DROPS_FROM * Math.max(0, raw.high - limit);
    for (let f = 3; f < middle.length; f++) {
      if (middle[f]! >= limit || middle[f - 1]! < limit) continue;
      // An open pin falls over a few frames: look at where it stood before.
      if (middle[f - 3]! > above) fromAbove++;
      else fromLow++;
    }
  }
  return { fromAbove, fromLow };
}

const METER_WIPER =
  'Check with a multimeter, supply off: ohms from the pin to the potentiometer’s middle leg must be below 1 Ω, and from the middle leg to either end must change smoothly as you turn the shaft.';

function fallen(finger: FingerLook, share: number, limit: number): Finding {
  const { pin } = finger.plan.finger;
  return found('openWiper', [finger], 0.95, {
    evidence: [
      `GPIO ${pin} read below ${counts(limit)} in ${percent(share, 0)} of its raw frames; with the wiper in place this wiring gives at least ${counts(2 * limit)}.`,
    ],
    cure: [
      `Check the wire from the potentiometer’s middle leg to GPIO ${pin}, then the one from its top leg to the supply: both leave the pin at ground.`,
      METER_WIPER,
    ],
    rulesOut: [
      'Slack string: a slack string leaves the wiper where it is, the reading never falls below its open end.',
      'Frozen readings: those keep a value in the middle of the range.',
    ],
    orElse: ['missingLeg'],
  });
}

function loose(finger: FingerLook, share: number, drops: number): Finding {
  const { pin } = finger.plan.finger;
  return found('openWiper', [finger], drops > 1 ? 0.93 : 0.75, {
    evidence: [
      `GPIO ${pin} fell to ground ${drops} times from the middle of its range, in ${percent(share)} of its raw frames: the contact comes and goes.`,
    ],
    cure: [
      `Move the wires to GPIO ${pin} one after the other while you watch the reading; solder the one at which it jumps.`,
      METER_WIPER,
    ],
    rulesOut: [
      'Slack string: the reading falls below what any place of the wiper gives.',
      'Dirty wiper: dirt makes a reading jump both ways at one place of the travel; this one falls to ground.',
    ],
    orElse: ['missingLeg', 'dirtyWiper'],
  });
}

/** Readings above the highest place of a wiper: the bottom leg is off, and the track hangs on the supply. */
function raisedOf(finger: FingerLook, raws: readonly RawLook[]): Finding | undefined {
  const top = finger.plan.topCounts[1];
  const low = Math.min(...raws.map((raw) => raw.low));
  const high = Math.max(...raws.map((raw) => raw.high));
  if (low <= top) return undefined;
  return found('missingLeg', [finger], 0.93, {
    evidence: [
      `GPIO ${finger.plan.finger.pin} read ${counts(low)} to ${counts(high)} all the time; the wiper at the top of its track gives at most ${counts(top)}.`,
    ],
    cure: [
      'The potentiometer’s leg to ground is off, or the resistor below it: the whole track hangs on the supply. Solder it anew.',
      'Check with a multimeter, supply off: from the bottom leg to ground must read the bottom resistor, from leg to leg the potentiometer’s value.',
    ],
    rulesOut: ['Saturation: a build that is set too high still comes back into range when the finger opens.'],
    orElse: ['pullUp', 'saturated'],
  });
}

/** Slow wander at rest over the noise, and over the planned span, from which a pin floats. Assumed. */
const FLOATS_SIGMAS = 12;
const FLOATS_SHARE = 0.08;

/** A pin without any resistor to ground does not fall when nothing is connected: it wanders, whatever the finger does. */
function floatingOf(finger: FingerLook): Finding | undefined {
  const { rawRest: rest, rawSlow: slow, plan } = finger;
  if (!rest || !slow) return undefined;
  const range = rest.high - rest.low;
  const isWide = range > FLOATS_SIGMAS * rest.ownSd && range > FLOATS_SHARE * plan.spanCounts[0];
  const moves = slow.high - slow.low > 1.6 * range || slow.high - slow.low > 0.8 * plan.spanCounts[0];
  if (!isWide || moves) return undefined;
  return found('openWiper', [finger], 0.8, {
    evidence: [
      `GPIO ${plan.finger.pin} wandered over ${counts(range)} with the hand at rest and no further when it closed, while the readings of a frame scatter by ${counts(rest.ownSd, 1)}: nothing holds the pin.`,
    ],
    cure: [
      'Nothing is connected to the pin: unplugged inputs wander like this (25000-32000 of 65535 in FreeJoy-Team/FreeJoy#206). Check the wiper’s wire, then fit 100 kΩ from the pin to ground, so that an open wire shows at once.',
      METER_WIPER,
    ],
    rulesOut: ['Slow pick-up: a connected wiper also follows the finger.'],
    orElse: ['missingLeg'],
  });
}

/** Without raw frames only the board's own judgement is there. */
function fromHand(finger: FingerLook): Finding[] {
  const looks = Object.values(finger.hand);
  const share = Math.max(0, ...looks.map((look) => look.range.invalidShare));
  if (share < LEAST) return [];
  return [
    found('openWiper', [finger], 0.6, {
      evidence: [
        `The board sent no valid value for the finger in ${percent(share)} of the frames: its wiper hangs in the air, or its readings are frozen.`,
      ],
      cure: ['Record raw frames of this channel: they tell which of the two.', METER_WIPER],
      orElse: ['missingLeg', 'frozen'],
    }),
  ];
}
