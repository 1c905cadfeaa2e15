import { describe, expect, it } from 'vitest';
import { openStream } from '../../../sim/seed/stream.ts';
import { createTimeMap } from '../../../workbench/live/time-map.ts';

interface Line {
  /** Host clock over device clock less 1. */
  ppm: number;
  /** Added delay of a frame, s, >= 0. */
  delayS: (sentS: number, random: () => number) => number;
  seed: number;
  rateHz?: number;
}

/** Feeds frames sent for so long; gives the map and how wrong the mapped moments were, s. */
function feed({ ppm, delayS, seed, rateHz = 100 }: Line, seconds: number) {
  const stream = openStream([seed, 17]);
  const random = () => stream.uniform();
  const map = createTimeMap();
  const errorsS: number[] = [];
  const driftAt: Record<number, number | undefined> = {};
  const offsetS = 1000 * random();
  for (let n = 1; n <= seconds * rateHz; n++) {
    // 0.08 ms: standard deviation of the interpreter's timer (measured on its Linux build)
    const deviceS = Math.floor((n / rateHz + 0.00008 * stream.normal()) * 4000) / 4000;
    const sentS = offsetS + deviceS * (1 + ppm * 1e-6);
    const mappedS = map.arrive(deviceS, sentS + delayS(sentS, random));
    errorsS.push(mappedS - sentS);
    if (n % rateHz === 0) driftAt[n / rateHz] = map.driftPpm();
  }
  return { map, errorsS, driftAt };
}

const USB = (_: number, random: () => number) => 0.0003 - 0.001 * Math.log(1 - random());
/** Whatever was sent since the last turn of a 16 ms timer comes with the next one. */
const TIMER = (sentS: number, random: () => number) =>
  Math.ceil(sentS / 0.016) * 0.016 - sentS + 0.0002 + 0.0003 * random();
/** Now and then a host that does nothing for half a second. */
const BUSY = (sentS: number, random: () => number) =>
  (sentS % 7 < 0.5 ? 0.5 - (sentS % 7) : 0) + USB(sentS, random);

const LINES = { USB, BUSY };
const PPMS = [-120, -30, 0, 12, 55, 120];

describe('the board’s clock on the host’s', () => {
  it.each(Object.keys(LINES).flatMap((name) => PPMS.map((ppm, seed) => [name, ppm, seed] as const)))(
    '%s, %i ppm: the drift is known to 20 ppm after 60 s',
    (name, ppm, seed) => {
      const { driftAt } = feed({ ppm, delayS: LINES[name as keyof typeof LINES], seed }, 60);
      expect(Math.abs(driftAt[60]! - ppm)).toBeLessThanOrEqual(20);
      expect(driftAt[20]).toBeUndefined();
    },
  );

  it.each(PPMS.map((ppm, seed) => [ppm, seed] as const))(
    'bursts of 16 ms, %i ppm: whenever a drift is told it is right to 20 ppm, and it is told in the end',
    (ppm, seed) => {
      const { driftAt } = feed({ ppm, delayS: TIMER, seed }, 300);
      for (const drift of Object.values(driftAt)) {
        if (drift !== undefined) expect(Math.abs(drift - ppm)).toBeLessThanOrEqual(20);
      }
      expect(driftAt[300]).toBeDefined();
    },
  );

  it('puts frames at even moments on a line that is not even', () => {
    const { errorsS } = feed({ ppm: 40, delayS: BUSY, seed: 3 }, 120);
    const late = errorsS.slice(1000);
    // The delay that is always there cannot be known; what is left is the spread.
    const sorted = [...late].sort((a, b) => a - b);
    expect(sorted[0]).toBeGreaterThan(-0.001);
    expect(sorted.at(-1)! - sorted[0]!).toBeLessThan(0.001);
  });

  it('gives no frame a moment after its arrival', () => {
    const map = createTimeMap();
    for (let n = 0; n < 1000; n++) {
      const arrivalS = 5 + n * 0.01 + (n % 3) * 0.002;
      expect(map.arrive(n * 0.01, arrivalS)).toBeLessThanOrEqual(arrivalS);
    }
  });

  it('sees a clock that has jumped ahead, and no other', () => {
    const map = createTimeMap();
    for (let n = 0; n < 1000; n++) {
      const [deviceS, arrivalS] = [n * 0.01, 3 + n * 0.01 + (n % 5) * 0.003];
      expect(map.isAhead(deviceS, arrivalS)).toBe(false);
      map.arrive(deviceS, arrivalS);
    }
    expect(map.isAhead(10.5, 13.01)).toBe(true);
    expect(map.isAhead(10.01, 15)).toBe(false);
  });

  it('takes a delay that has come to stay as the new one', () => {
    const map = createTimeMap();
    let errorS = 0;
    for (let n = 0; n < 2000; n++)
      errorS = map.arrive(n * 0.01, n * 0.01 + (n < 1000 ? 0.001 : 0.6)) - n * 0.01;
    expect(errorS).toBeCloseTo(0.6, 3);
  });
});
