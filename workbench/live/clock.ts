import type { Clock } from './session-types.ts';

/**
 * The host's own time, in a browser or in Node. Starts at 0.
 * @param speed seconds told for each that passes; more than 1 only for a simulated board
 */
export function realClock(speed = 1): Clock {
  const began = performance.now();
  return {
    nowS: () => (speed * (performance.now() - began)) / 1000,
    every(periodS, call) {
      const timer = setInterval(call, (1000 * periodS) / speed);
      return () => clearInterval(timer);
    },
  };
}

export interface VirtualClock extends Clock {
  /** Lets time pass: all calls that fall due are made, in the order of their times. */
  advance(toS: number): void;
}

/** A time that passes only when told to. Calls of the same moment are made in the order in which they were asked for. */
export function virtualClock(): VirtualClock {
  let nowS = 0;
  const calls = new Set<{ dueS: number; periodS: number; call: () => void }>();

  return {
    nowS: () => nowS,
    every(periodS, call) {
      if (!(periodS > 0)) throw new RangeError(`every: a period of ${periodS} s, expected more than 0`);
      const entry = { dueS: nowS + periodS, periodS, call };
      calls.add(entry);
      return () => void calls.delete(entry);
    },
    advance(toS) {
      for (;;) {
        let next: { dueS: number; periodS: number; call: () => void } | undefined;
        for (const entry of calls) if (!next || entry.dueS < next.dueS) next = entry;
        if (!next || next.dueS > toS) break;
        nowS = next.dueS;
        next.dueS += next.periodS;
        next.call();
      }
      nowS = Math.max(nowS, toS);
    },
  };
}
