/**
 * How a worn or dirty wiper spoils the signal. No maker publishes noise against cycles; all growth laws here are
 * assumed, and only the size of the jumps is taken from a recording.
 */

/** Largest life share that the growth laws follow; beyond it the part is simply bad. */
const MOST_LIFE = 3;

function lifeShare(usedCycles: number, ratedCycles: number): number {
  const share = usedCycles / ratedCycles;
  return share > 0 ? (share < MOST_LIFE ? share : MOST_LIFE) : 0;
}

/**
 * Factor on the reading's noise (sd) from contact resistance that varies more with use: 1 when new, 3 at the
 * rated life (1 + 2 share^2, assumed).
 * @param ratedCycles > 0
 */
export function wearNoiseFactor(usedCycles: number, ratedCycles: number): number {
  const share = lifeShare(usedCycles, ratedCycles);
  return 1 + 2 * share * share;
}

/**
 * Bursts of bad contact per second: none when new. At the rated life one in 15 s, the rate of a slide
 * potentiometer that its owner gave up (a public student log of slide potentiometers: one run of jumps in 50
 * readings 300 ms apart); that this is the rated life, and the cubic growth, are assumed.
 */
export function burstRatePerS(usedCycles: number, ratedCycles: number): number {
  const share = lifeShare(usedCycles, ratedCycles);
  return (share * share * share) / 15;
}

/**
 * Largest jump of a reading in a burst, share of full scale: 117 of 1023 (718 where 601 was usual; the same log
 * jumped to 530, 703, 538, 543 and 718).
 */
export const BURST_JUMP = 117 / 1023;

/** Length of a burst, s: five readings 300 ms apart in the same log. */
export const BURST_S = 1.5;

/**
 * Wiper position as it reads during a burst.
 * @param draw one new draw in -1..1 for each reading (that readings jump independently is assumed)
 * @returns 0-1
 */
export function burstWiper(x: number, draw: number): number {
  const y = x + BURST_JUMP * draw;
  return y > 0 ? (y < 1 ? y : 1) : 0;
}

/**
 * Pin voltage after the wiper has lifted off: the capacitor empties through the pull-down.
 * @param startV voltage when it lifted
 * @param timeS since then, >= 0
 * @param pullDownOhm 0 = none: the pin keeps its charge (leakage is not modelled)
 * @param capacitorF 0 = none: falls at once if there is a pull-down
 */
export function liftOffVolts(startV: number, timeS: number, pullDownOhm: number, capacitorF: number): number {
  if (pullDownOhm === 0 || timeS <= 0) return startV;
  return capacitorF === 0 ? 0 : startV * Math.exp(-timeS / (pullDownOhm * capacitorF));
}

/** Time from lift-off until the pin is below a level, s; Infinity without a pull-down. */
export function liftOffDelayS(
  startV: number,
  levelV: number,
  pullDownOhm: number,
  capacitorF: number,
): number {
  if (startV <= levelV) return 0;
  if (pullDownOhm === 0) return Infinity;
  return pullDownOhm * capacitorF * Math.log(startV / levelV);
}
