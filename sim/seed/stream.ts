import { gaussAt } from './gauss.ts';
import { type Key, uniformAt } from './mix.ts';

/** Numbers drawn one after the other from one key: part tolerances, hold times, anything drawn once. */
export interface Stream {
  /** Strictly between 0 and 1. */
  uniform(): number;
  /** Evenly spread from `low` to `high`. */
  between(low: number, high: number): number;
  /** Mean 0, standard deviation 1. */
  normal(): number;
}

/**
 * Opens a stream at its start. Same key, same numbers; each call of a method takes one counter, whatever it
 * returns, so adding a draw at the end leaves the earlier ones as they were.
 */
export function openStream(key: Key): Stream {
  const [k0, k1] = key;
  let counter = 0;
  function uniform(): number {
    return uniformAt(counter++, k0, k1);
  }
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    normal: () => gaussAt(counter++, k0, k1),
  };
}
