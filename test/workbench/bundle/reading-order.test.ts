import { describe, expect, it } from 'vitest';
import { FINGER_NAMES, type Rig } from '../../../sim/rig/rig.ts';
import { readingOrder } from '../../../workbench/bundle/reading-order.ts';
import { parseRig } from '../../../workbench/rig/parse-rig.ts';

/** Fingers on these inputs, thumb first; undefined = a pin of its own. */
function rigOn(inputs: (number | undefined)[]): Rig {
  const direct = [33, 34, 35, 36, 39];
  const fingers = inputs.map((input, i) =>
    input === undefined
      ? `  ${FINGER_NAMES[i]}: {pin: ${direct[i]}}`
      : `  ${FINGER_NAMES[i]}: {channel: ${input}}`,
  );
  return parseRig(
    `multiplexer: {select: [18, 19, 21], signal: 32}\nfingers:\n${fingers.join('\n')}\n`,
    'rig.yaml',
  ).rig;
}

function shuffles(items: readonly number[]): number[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item) =>
    shuffles(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
  );
}

/** Ones in the binary digits of what differs, summed over the round. */
function linesChanged(channels: readonly number[]): number {
  return channels.reduce((sum, channel, i) => {
    const differing = channel ^ channels[(i + 1) % channels.length]!;
    return sum + differing.toString(2).replaceAll('0', '').length;
  }, 0);
}

describe('the order in which fingers are read', () => {
  it('is thumb to little finger without a multiplexer', () => {
    const rig = parseRig(
      'fingers: {little: {pin: 36}, thumb: {pin: 32}, middle: {pin: 34}}\n',
      'rig.yaml',
    ).rig;
    expect(readingOrder(rig).map((turn) => [turn.finger.name, turn.channel])).toEqual([
      ['thumb', -1],
      ['middle', -1],
      ['little', -1],
    ]);
  });

  // by hand: 000 001 101 100 and back to 000 is a ring of single changes
  it('changes one line at a time on four inputs that form a ring', () => {
    const channels = readingOrder(rigOn([0, 1, 4, 5])).map((turn) => turn.channel);
    expect(linesChanged(channels)).toBe(4);
  });

  it('changes as few lines as any order does, for every choice of five inputs', () => {
    for (let set = 0; set < 256; set++) {
      const inputs = [0, 1, 2, 3, 4, 5, 6, 7].filter((input) => (set >> input) & 1);
      if (inputs.length !== 5) continue;
      const channels = readingOrder(rigOn(inputs)).map((turn) => turn.channel);
      expect([...channels].sort((a, b) => a - b)).toEqual(inputs);
      const fewest = Math.min(...shuffles(inputs).map(linesChanged));
      expect(linesChanged(channels), inputs.join()).toBe(fewest);
    }
  });

  it('reads fingers on pins of their own last, with the lines left as they are', () => {
    const turns = readingOrder(rigOn([undefined, 6, 2, undefined, 3]));
    expect(turns.slice(3).map((turn) => turn.finger.name)).toEqual(['thumb', 'ring']);
    expect(turns.slice(3).map((turn) => turn.channel)).toEqual([turns[2]!.channel, turns[2]!.channel]);
    for (const { finger, channel } of turns.slice(0, 3)) expect(finger.channel).toBe(channel);
  });
});
