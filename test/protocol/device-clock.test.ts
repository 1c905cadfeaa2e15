import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createDeviceClock, latestCongruent } from '../../protocol/device-clock.ts';

/** What the 16 bits of a frame show at a device time. */
function stepsAt(deviceS: number): number {
  return Math.floor(deviceS * 4000) % 65536;
}

describe('unwrapping device time', () => {
  it('starts with the time of the first frame and takes 65535 -> 0 as one step of 250 us', () => {
    const clock = createDeviceClock();
    expect(clock.unwrap(65535, 100)).toBe(65535 / 4000);
    expect(clock.unwrap(0, 100.00025)).toBe(16.384);
    expect(clock.unwrap(40, 100.01025)).toBe(16.394);
  });

  it('counts the rounds of a long silence from the arrival time', () => {
    const clock = createDeviceClock();
    clock.unwrap(0, 5);
    // three rounds and 1 s: 3 * 16.384 + 1 = 50.152
    expect(clock.unwrap(4000, 5 + 50.152)).toBe(50.152);
  });

  it('counts them over a silence of ten hours too', () => {
    const clock = createDeviceClock();
    clock.unwrap(0, 0);
    expect(clock.unwrap(stepsAt(36000), 36000)).toBe(36000);
  });

  it('does not jump when the host stops for 10 s and then reads what was waiting', () => {
    const clock = createDeviceClock();
    for (let i = 0; i < 200; i++) clock.unwrap(stepsAt(i * 0.01), i * 0.01);
    for (let i = 200; i < 1200; i++) expect(clock.unwrap(stepsAt(i * 0.01), 12)).toBeCloseTo(i * 0.01, 3);
    expect(clock.unwrap(stepsAt(12.01), 12.01)).toBeCloseTo(12.01, 3);
  });

  it('gives an overtaken frame its earlier time', () => {
    const clock = createDeviceClock();
    expect(clock.unwrap(80, 0.02)).toBe(0.02);
    expect(clock.unwrap(40, 0.021)).toBe(0.01);
    expect(clock.unwrap(120, 0.03)).toBe(0.03);
  });

  it('begins again after a reset', () => {
    const clock = createDeviceClock();
    clock.unwrap(1000, 1000);
    clock.reset();
    expect(clock.unwrap(400, 1001)).toBe(0.1);
  });

  it('follows a device clock 200 ppm off the host for a day with a frame every 20 s', () => {
    for (const rate of [0.9998, 1.0002]) {
      const clock = createDeviceClock();
      for (let hostS = 0; hostS <= 86400; hostS += 20) {
        expect(clock.unwrap(stepsAt(hostS * rate), hostS)).toBeCloseTo(hostS * rate, 3);
      }
    }
  });

  it('never differs from the true time while delays stay below 12 s', () => {
    const frame = fc.record({
      // mostly the usual 10 ms, now and then silences of up to ten minutes
      waitS: fc.oneof(
        { weight: 4, arbitrary: fc.constant(0.01) },
        { weight: 1, arbitrary: fc.double({ min: 0.01, max: 600, noNaN: true }) },
      ),
      delayS: fc.oneof(
        { weight: 3, arbitrary: fc.constant(0.002) },
        { weight: 1, arbitrary: fc.double({ min: 0, max: 12, noNaN: true }) },
      ),
    });
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 16, noNaN: true }),
        fc.array(frame, { maxLength: 100 }),
        (startS, frames) => {
          const clock = createDeviceClock();
          let deviceS = startS;
          let arrivalS = 7000 + startS;
          // the first frame comes with a usual delay
          expect(clock.unwrap(stepsAt(deviceS), arrivalS)).toBeCloseTo(deviceS, 3);
          for (const { waitS, delayS } of frames) {
            deviceS += waitS;
            arrivalS = Math.max(arrivalS, 7000 + deviceS + delayS);
            expect(Math.abs(clock.unwrap(stepsAt(deviceS), arrivalS) - deviceS)).toBeLessThan(0.000251);
          }
        },
      ),
    );
  });

  it('picks the latest count that fits', () => {
    expect(latestCongruent(5, 65540)).toBe(5);
    expect(latestCongruent(5, 65541)).toBe(65541);
    expect(latestCongruent(5, 4)).toBe(5 - 65536);
  });
});
