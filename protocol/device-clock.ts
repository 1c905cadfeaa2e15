/**
 * Host only. Unwraps the 16-bit device time of the frames (250 us steps, 16.384 s round) to seconds that go on.
 *
 * Arrival times are late by a varying amount (USB polling, a busy host) but never early: a frame cannot arrive
 * before it was sent. So of all device times that fit the 16 bits, the right one is the latest that is not in the
 * future, with the smallest delay seen so far standing for none. This survives a host that stops for seconds and
 * then reads a full buffer, where "the time nearest to the arrival" would jump by a round.
 */
import { TIME_STEPS_PER_SECOND, TIME_WRAP_STEPS } from './frame.ts';

/**
 * How far the device time may seem to lie in the future, s: a quarter of a round. Covers a first frame that was
 * itself late, and clocks that drift apart during a silence (100 ppm use it up in 11 hours). The other three
 * quarters, 12.288 s, are what a frame may be late.
 */
const SLACK_S = TIME_WRAP_STEPS / TIME_STEPS_PER_SECOND / 4;
/** The smallest delay is forgotten at this rate, s/s: faster than crystals drift (assumed below 200 ppm). */
const FORGET_RATE = 0.001;
/** ... but by no more than this over one silence, s, so that it stays well inside SLACK_S. */
const FORGET_MAX_S = 1;

/**
 * The latest count that is congruent to `steps` modulo 65536 and not above `limitSteps`.
 * @param steps 0-65535
 */
export function latestCongruent(steps: number, limitSteps: number): number {
  return steps + TIME_WRAP_STEPS * Math.floor((limitSteps - steps) / TIME_WRAP_STEPS);
}

export interface DeviceClock {
  /**
   * @param timeSteps from the frame, 0-65535
   * @param arrivalS when the frame came in, on a host clock that never goes back, s
   * @returns device time, s: 0 to 16.384 for the first frame, then going on; earlier than the last one's only for
   *   a frame that was overtaken, or after the device started anew
   */
  unwrap(timeSteps: number, arrivalS: number): number;
  /** Forgets everything: the next frame is a first one. */
  reset(): void;
}

export function createDeviceClock(): DeviceClock {
  let started = false;
  let lastArrivalS = 0;
  /** Arrival time minus device time at the smallest delay of late, s. */
  let offsetS = 0;

  function unwrap(timeSteps: number, arrivalS: number): number {
    if (!started) {
      started = true;
      lastArrivalS = arrivalS;
      offsetS = arrivalS - timeSteps / TIME_STEPS_PER_SECOND;
    }
    offsetS += Math.min((arrivalS - lastArrivalS) * FORGET_RATE, FORGET_MAX_S);
    lastArrivalS = arrivalS;
    const limitSteps = (arrivalS - offsetS + SLACK_S) * TIME_STEPS_PER_SECOND;
    const deviceS = latestCongruent(timeSteps, limitSteps) / TIME_STEPS_PER_SECOND;
    offsetS = Math.min(offsetS, arrivalS - deviceS);
    return deviceS;
  }

  function reset(): void {
    started = false;
  }

  return { unwrap, reset };
}
