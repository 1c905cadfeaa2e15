/**
 * Host only. Arithmetic on the 8-bit sequence number after RFC 1982 with SERIAL_BITS = 8: numbers are on a circle,
 * and of two numbers exactly half the circle apart neither is the later one.
 */

const COUNT = 256;
const HALF = 128;

/** RFC 1982 addition. @param n 0-127; the RFC leaves more undefined, then NaN */
export function addSequence(sequence: number, n: number): number {
  return n >= 0 && n < HALF ? (sequence + n) % COUNT : Number.NaN;
}

/** Steps forward from one number to the other: -127 to 127, NaN if exactly 128 apart (undefined). */
export function sequenceDistance(from: number, to: number): number {
  const forward = (to - from + COUNT) % COUNT;
  return forward === HALF ? Number.NaN : forward < HALF ? forward : forward - COUNT;
}

/** RFC 1982 comparison: 1 if a is later than b, -1 if earlier, 0 if equal, NaN if undefined. */
export function compareSequence(a: number, b: number): number {
  const distance = sequenceDistance(b, a);
  return distance > 0 ? 1 : distance < 0 ? -1 : distance;
}

/**
 * How many steps the sender made from `previous` to `received`, given how many were expected from the time that
 * passed: of all step counts that lead from the one number to the other, the one nearest to the expectation. So a
 * silence of several rounds of 256 is told apart from a short one if the expectation is off by less than 128.
 * @param expected steps by the clock, may be fractional or negative; 0 = go by the numbers alone
 * @returns an integer in [expected - 128, expected + 128]; of two equally near ones, the larger
 */
export function nearestStep(previous: number, received: number, expected: number): number {
  const forward = (received - previous + COUNT) % COUNT;
  return forward + COUNT * Math.floor((expected - forward + HALF) / COUNT);
}

/** What a frame is in the row of frames. */
export type Succession = 'next' | 'duplicate' | 'lost' | 'reordered';

/** Names a step: 1 is the next frame, 0 the same again, more than 1 has step - 1 lost before it, less is late. */
export function succession(step: number): Succession {
  return step === 1 ? 'next' : step === 0 ? 'duplicate' : step > 1 ? 'lost' : 'reordered';
}
