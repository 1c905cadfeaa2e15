import { channelAt, selectBit } from '../../firmware/main/multiplexer.ts';
import { FINGER_NAMES, type Finger, type Rig } from '../../sim/rig/rig.ts';

/** A finger in the order in which it is read. */
export interface Turn {
  finger: Finger;
  /** Input of the multiplexer that is selected for it; -1 = the rig has none. */
  channel: number;
}

/**
 * Order in which the fingers are read: thumb to little finger; behind a multiplexer so that over the whole round,
 * from the last back to the first too, as few select lines as possible change. Where two change at once a third
 * channel is connected for a moment, and its capacitor shares its charge. Fingers on pins of their own come last and
 * leave the lines as they are.
 */
export function readingOrder(rig: Rig): Turn[] {
  const byName = [...rig.fingers].sort((a, b) => FINGER_NAMES.indexOf(a.name) - FINGER_NAMES.indexOf(b.name));
  if (!rig.multiplexer) return byName.map((finger) => ({ finger, channel: -1 }));
  const multiplexed = [0, 1, 2, 3, 4, 5, 6, 7]
    .map(channelAt)
    .flatMap((channel) => byName.filter((f) => f.channel === channel).map((finger) => ({ finger, channel })));
  const round = shortestRound(multiplexed);
  const channel = round.at(-1)?.channel ?? 0;
  const direct = byName.filter((f) => f.channel === undefined);
  return [...round, ...direct.map((finger) => ({ finger, channel }))];
}

/** Select lines that change between two channels. */
function changes(from: number, to: number): number {
  return [0, 1, 2].filter((line) => selectBit(from, line) !== selectBit(to, line)).length;
}

function roundChanges(turns: readonly Turn[]): number {
  return turns.reduce(
    (sum, turn, i) => sum + changes(turn.channel, turns[(i + 1) % turns.length]!.channel),
    0,
  );
}

/** The first of the best orders that begin with the same turn; with five fingers there are 24. */
function shortestRound(turns: readonly Turn[]): Turn[] {
  const [first, ...others] = turns;
  if (!first) return [];
  let best = [...turns];
  for (const order of orders(others)) {
    const round = [first, ...order];
    if (roundChanges(round) < roundChanges(best)) best = round;
  }
  return best;
}

function orders<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, i) =>
    orders([...items.slice(0, i), ...items.slice(i + 1)]).map((order) => [item, ...order]),
  );
}
