/**
 * A hand of one finger that asks for little and allows little frame time: a dozen settings instead of
 * thousands, so that a whole study takes a second. With comments in places where they might get lost.
 */
export const SMALL_HAND = `# My first hand
name: Small hand   # one finger
board: esp32
# the finger
fingers:
  index: { pin: 33 } # soldered
wishes:   # easy
  jitter: 10 %
  lag: 100 ms
  falsePerHour: 1000
  step: 5 %
  frameShare: 12 %
# the end
`;

/** The same with a lag that no hand can have: waiting for the next of 100 frames a second alone takes longer. */
export const IMPOSSIBLE_HAND = SMALL_HAND.replace('lag: 100 ms', 'lag: 1 ms');
