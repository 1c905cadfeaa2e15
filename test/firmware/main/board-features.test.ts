import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compensate } from '../../../firmware/chain/compensate.ts';
import { capturedHigh, capturedLow, closedEnd, hasMoved, openEnd } from '../../../firmware/main/capture.ts';
import { bounceCount, debounced } from '../../../firmware/main/debounce.ts';
import { channelAt, selectBit } from '../../../firmware/main/multiplexer.ts';
import { railFactor } from '../../../firmware/main/rail.ts';
import { isGap, isLate, isTickDue } from '../../../firmware/main/tick-guard.ts';
import { frozenCount, isFrozen, isOpenWiper } from '../../../firmware/main/wiper-check.ts';
import { wiperLimits } from '../../../firmware/main/wiper-limits.ts';

function buttonStates(raw: string, steps: number): string {
  let count = 0;
  let pressed = 0;
  return [...raw]
    .map((level) => {
      count = bounceCount(count, pressed, Number(level), steps);
      pressed = debounced(pressed, count, steps);
      return pressed;
    })
    .join('');
}

describe('a debounced button', () => {
  // worked by hand: it changes with the n-th equal reading in a row
  it.each([
    [1, '0110100', '0110100'],
    [2, '0110111', '0011111'],
    [3, '0101011100100011', '0000000111111000'],
    [3, '000111000', '000001110'],
    [2, '1010101010', '0000000000'],
  ])('needs %d steps: %s gives %s', (steps, raw, expected) => {
    expect(buttonStates(raw, steps)).toBe(expected);
  });

  it('changes at most once in so many steps, and follows a level that stays', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(1), { maxLength: 60 }), fc.integer({ min: 1, max: 6 }), (raw, steps) => {
        const held = 2 * steps;
        const states = buttonStates(raw.join('') + '1'.repeat(held) + '0'.repeat(held), steps);
        const changes = [...states].flatMap((state, i) => (i > 0 && state !== states[i - 1] ? [i] : []));
        for (let i = 1; i < changes.length; i++)
          expect(changes[i]! - changes[i - 1]!).toBeGreaterThanOrEqual(steps);
        expect(states.at(raw.length + held - 1)).toBe('1');
        expect(states.at(-1)).toBe('0');
      }),
    );
  });
});

describe('the wiper checks', () => {
  // 1 kΩ to ground, 10 kΩ, 5.6 kΩ to the supply: at least 1/16.6 of full scale, 246.7 counts of 4096
  it('take half of the least possible reading for open', () => {
    const { openBelow } = wiperLimits(4096 / 16.6);
    expect(openBelow).toBeCloseTo(123.37, 2);
    expect(isOpenWiper(124, openBelow)).toBe(false);
    expect(isOpenWiper(123, openBelow)).toBe(true);
    expect(isOpenWiper(0, openBelow)).toBe(true);
    expect(isOpenWiper(0, 0)).toBe(false);
  });

  it('take a channel for frozen that stays the same for some frames while others move', () => {
    // same, others moved, count after it
    const frames = [
      [1, 0, 0],
      [1, 1, 1],
      [1, 0, 1],
      [1, 1, 2],
      [1, 1, 2],
      [0, 1, 0],
      [1, 1, 1],
    ] as const;
    let count = 0;
    for (const [same, moved, expected] of frames) {
      count = frozenCount(count, same === 1, moved === 1, 2);
      expect(count).toBe(expected);
    }
    expect([isFrozen(19, 20), isFrozen(20, 20)]).toEqual([false, true]);
  });
});

describe('the rail’s compensation', () => {
  it('brings a sagging rail’s readings back', () => {
    // a divider by two from 3.3 V and from 3.0 V, converter at 3.3 V full scale
    const factor = railFactor(0.5, 0.5 * (3.0 / 3.3));
    expect(factor).toBeCloseTo(1.1, 12);
    expect(compensate(0.3 * (3.0 / 3.3), factor)).toBeCloseTo(0.3, 12);
  });

  it.each([0, 0.37, 0.63, 1, Number.NaN])(
    'leaves readings alone when the rail pin says %d of 0.5',
    (measured) => {
      expect(railFactor(0.5, measured)).toBe(1);
    },
  );
});

describe('the multiplexer', () => {
  it('is read in an order in which one line changes at a time', () => {
    const order = Array.from({ length: 8 }, (_, step) => channelAt(step));
    // reflected binary code, Gray 1953
    expect(order).toEqual([0, 1, 3, 2, 6, 7, 5, 4]);
    const lines = order.map((channel) => [0, 1, 2].map((line) => selectBit(channel, line)));
    lines.forEach((bits, step) => {
      const next = lines[(step + 1) % 8]!;
      expect(bits.filter((bit, line) => bit !== next[line])).toHaveLength(1);
    });
    expect(lines[4]).toEqual([0, 1, 1]);
  });
});

describe('the guard against catch-up ticks', () => {
  /** Times of the ticks that are worked on. */
  function worked(ticks: number[], periodS: number): number[] {
    let last = Number.NEGATIVE_INFINITY;
    return ticks.filter((now) => {
      if (!isTickDue(now - last, periodS)) return false;
      last = now;
      return true;
    });
  }

  it('drops the ticks that are made up for after a stall', () => {
    const before = [0, 0.01, 0.02];
    // a stall of 1 s, then 99 ticks 20 µs apart, then the timer goes on
    const burst = Array.from({ length: 99 }, (_, i) => 1.02 + i * 20e-6);
    const after = [1.03, 1.04];
    expect(worked([...before, ...burst, ...after], 0.01)).toEqual([...before, 1.02, ...after]);
  });

  it('lets ticks through that are early or late by a little', () => {
    const ticks = Array.from({ length: 50 }, (_, i) => 0.01 * i + (i % 3) * 0.002);
    expect(worked(ticks, 0.01)).toEqual(ticks);
  });

  it('goes on when the clock is set back', () => {
    expect(worked([100, 100.01, 5, 5.001, 5.01], 0.01)).toEqual([100, 100.01, 5, 5.01]);
  });
});

describe('a capture of the ends', () => {
  it('finds open and closed from a hand that begins open, whichever way the string turns', () => {
    for (const [readings, open, closed] of [
      [[0.3, 0.32, 0.8, 0.28, 0.5], 0.28, 0.8],
      [[0.75, 0.7, 0.2, 0.8, 0.5], 0.8, 0.2],
    ] as const) {
      const low = readings.reduce(capturedLow, Number.POSITIVE_INFINITY);
      const high = readings.reduce(capturedHigh, Number.NEGATIVE_INFINITY);
      expect(openEnd(readings[0], low, high)).toBe(open);
      expect(closedEnd(open, low, high)).toBe(closed);
      expect(hasMoved(low, high, 0.1)).toBe(true);
    }
    expect(hasMoved(0.3, 0.39, 0.1)).toBe(false);
  });

  it('that saw nothing has no ends', () => {
    expect(hasMoved(Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0.1)).toBe(false);
  });

  // by definition; 40 ms and 1 s of silence at 100 Hz
  it.each([
    [0.01, 'due'],
    [0.0049, 'skipped'],
    [0.005, 'due'],
    [0, 'skipped'],
    [0.0201, 'due late'],
    [0.02, 'due'],
    [0.04, 'due late'],
    [0.1, 'due late gap'],
    [1, 'due late gap'],
    [-3600, 'due gap'],
  ])('takes %d s since the last frame at 100 Hz for %s', (elapsedS, expected) => {
    const words = [
      isTickDue(elapsedS, 0.01) ? 'due' : 'skipped',
      isLate(elapsedS, 0.01) ? 'late' : '',
      isGap(elapsedS, 0.1) ? 'gap' : '',
    ];
    expect(words.filter((word) => word !== '').join(' ')).toBe(expected);
  });
});
