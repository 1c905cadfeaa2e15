import { describe, expect, it } from 'vitest';
import { createReceiver } from '../../protocol/receive.ts';
import { ascii, handFrame, joined } from './frames.ts';

interface Heard {
  sequence: number;
  deviceS: number;
  step: number;
}

function listen() {
  const heard: Heard[] = [];
  const receiver = createReceiver(0.01, (frame, deviceS, step) => {
    heard.push({ sequence: frame.sequence, deviceS, step });
  });
  return { heard, receiver };
}

describe('the receiving end', () => {
  it('gives each frame its device time and place in the row across both wraps', () => {
    const { heard, receiver } = listen();
    for (let n = 0; n < 2000; n++) receiver.push(handFrame(n), 50 + n * 0.01);
    expect(heard).toHaveLength(2000);
    expect(heard[1999]).toEqual({ sequence: 1999 % 256, deviceS: 19.99, step: 1 });
    expect(receiver.counters()).toMatchObject({
      framesGood: 2000,
      lost: 0,
      duplicates: 0,
      reordered: 0,
      restarts: 0,
    });
  });

  it('counts a gap of 300 frames as 300 lost, and one of 5000 as 5000', () => {
    for (const gap of [300, 5000]) {
      const { heard, receiver } = listen();
      receiver.push(handFrame(20), 0.2);
      receiver.push(handFrame(21 + gap), 0.21 + gap * 0.01);
      expect(heard[1].step).toBe(gap + 1);
      expect(receiver.counters().lost).toBe(gap);
    }
  });

  it('counts nothing when the host sleeps for 9 s and then gets all frames at once', () => {
    const { heard, receiver } = listen();
    for (let n = 0; n < 100; n++) receiver.push(handFrame(n), n * 0.01);
    receiver.push(joined(Array.from({ length: 900 }, (_, i) => handFrame(100 + i))), 10);
    expect(heard).toHaveLength(1000);
    expect(receiver.counters()).toMatchObject({ framesGood: 1000, lost: 0, duplicates: 0, restarts: 0 });
    expect(heard[999].deviceS).toBeCloseTo(9.99, 6);
  });

  it('counts damaged, repeated and swapped frames each by its cause', () => {
    const { receiver } = listen();
    const damaged = handFrame(2);
    damaged[9] ^= 1;
    receiver.push(
      joined([handFrame(1), damaged, handFrame(3), handFrame(3), handFrame(5), handFrame(4)]),
      0.06,
    );
    expect(receiver.counters()).toMatchObject({
      framesGood: 5,
      falseSync: 1,
      lost: 1,
      duplicates: 1,
      reordered: 1,
      restarts: 0,
    });
  });

  it('takes a board that starts anew, with boot text, for a new row when told', () => {
    const { heard, receiver } = listen();
    receiver.push(joined([handFrame(5000), handFrame(5001).subarray(0, 7)]), 1);
    receiver.restart();
    expect(receiver.counters().falseSync).toBe(1);
    receiver.push(joined([ascii('rst:0x1 (POWERON_RESET)\r\n'), handFrame(0), handFrame(1)]), 31);
    expect(heard.map((h) => h.step)).toEqual([1, 1, 1]);
    expect(heard[1].deviceS).toBe(0);
    expect(receiver.counters()).toMatchObject({ framesGood: 3, lost: 0, falseSync: 1 });
  });
});
