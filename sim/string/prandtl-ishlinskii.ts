import { play } from './play.ts';

/**
 * One step of a Prandtl-Ishlinskii model: a weighted sum of play operators, for hysteresis whose width grows
 * with the stroke.
 * @param states output of each play, updated in place
 * @param weights one for each play
 * @param halfWidths one for each play, >= 0
 * @returns the weighted sum
 */
export function prandtlIshlinskii(
  states: Float64Array,
  weights: Float64Array,
  halfWidths: Float64Array,
  input: number,
): number {
  let sum = 0;
  for (let i = 0; i < states.length; i += 1) {
    states[i] = play(states[i], input, halfWidths[i]);
    sum += weights[i] * states[i];
  }
  return sum;
}
