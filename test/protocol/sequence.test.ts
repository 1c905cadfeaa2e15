import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addSequence,
  compareSequence,
  nearestStep,
  sequenceDistance,
  succession,
} from '../../protocol/sequence.ts';

// RFC 1982 section 5.2, the example with SERIAL_BITS = 8
describe('RFC 1982 with 8 bits', () => {
  it('adds as in the RFC: 255 + 1 = 0, 100 + 100 = 200, 200 + 100 = 44', () => {
    expect(addSequence(255, 1)).toBe(0);
    expect(addSequence(100, 100)).toBe(200);
    expect(addSequence(200, 100)).toBe(44);
  });

  it('refuses to add more than 127 or less than 0', () => {
    expect(addSequence(7, 127)).toBe(134);
    expect(addSequence(7, 128)).toBeNaN();
    expect(addSequence(7, -1)).toBeNaN();
  });

  it.each([
    [1, 0],
    [44, 0],
    [100, 0],
    [100, 44],
    [200, 100],
    [255, 200],
    [0, 255],
    [100, 255],
    [0, 200],
    [44, 200],
  ])('has %i later than %i', (later, earlier) => {
    expect(compareSequence(later, earlier)).toBe(1);
    expect(compareSequence(earlier, later)).toBe(-1);
  });

  it('leaves 0 against 128 undefined, and every pair that far apart', () => {
    for (let a = 0; a < 256; a++) {
      expect(compareSequence(a, (a + 128) % 256)).toBeNaN();
      expect(sequenceDistance(a, (a + 128) % 256)).toBeNaN();
    }
  });

  it('agrees with the definition by i1 and i2 of section 3.2 for all 65536 pairs', () => {
    for (let a = 0; a < 256; a++) {
      for (let b = 0; b < 256; b++) {
        const less = (a < b && b - a < 128) || (a > b && a - b > 128);
        const more = (a < b && b - a > 128) || (a > b && a - b < 128);
        const expected = a === b ? 0 : less ? -1 : more ? 1 : Number.NaN;
        if (!Object.is(compareSequence(a, b) + 0, expected)) throw new Error(`${a} against ${b}`);
      }
    }
  });

  it('finds back with the distance what was added', () => {
    for (let a = 0; a < 256; a++)
      for (let n = 0; n < 128; n++)
        if (sequenceDistance(a, addSequence(a, n)) !== n) throw new Error(`${a}+${n}`);
  });
});

describe('steps of the sender', () => {
  it('goes by the numbers alone when no time passed', () => {
    expect(nearestStep(255, 0, 0)).toBe(1);
    expect(nearestStep(10, 10, 0)).toBe(0);
    expect(nearestStep(10, 9, 0)).toBe(-1);
    expect(nearestStep(250, 4, 0)).toBe(10);
    expect(nearestStep(0, 129, 0)).toBe(-127);
  });

  it('takes the distance that the RFC leaves undefined as forward', () => {
    expect(nearestStep(0, 128, 0)).toBe(128);
    expect(nearestStep(128, 0, 0)).toBe(128);
  });

  it('finds any number of steps if the expectation is off by less than 128', () => {
    fc.assert(
      fc.property(
        fc.nat(255),
        fc.integer({ min: -120, max: 1_000_000 }),
        fc.double({ min: -127.9, max: 127.9, noNaN: true }),
        (previous, steps, error) => {
          const received = (((previous + steps) % 256) + 256) % 256;
          expect(nearestStep(previous, received, steps + error)).toBe(steps);
        },
      ),
    );
  });

  it('names each step', () => {
    expect([1, 0, 2, 301, -1].map(succession)).toEqual(['next', 'duplicate', 'lost', 'lost', 'reordered']);
  });
});
