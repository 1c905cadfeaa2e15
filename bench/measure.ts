import { performance } from 'node:perf_hooks';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

/** One way of doing the work of a bench. */
export interface Contender {
  impl: string;
  /** Does a fair portion of the work; returns how many units that was. */
  run(): number | Promise<number>;
}

/** Units a second of one contender, one number a repetition, in order. */
export type Rates = Map<string, number[]>;

/**
 * Runs contenders by turns, so that a busy moment of the machine hits all of them alike. Each starts with a clean
 * heap, or it would pay for what the one before it left behind.
 * @param repetitions rounds that are measured; one more goes first and is not counted
 */
export async function measure(contenders: Contender[], repetitions: number): Promise<Rates> {
  const rates: Rates = new Map(contenders.map(({ impl }) => [impl, []]));
  for (let round = 0; round <= repetitions; round++) {
    for (const { impl, run } of contenders) {
      collectGarbage();
      const start = performance.now();
      const units = await run();
      const seconds = (performance.now() - start) / 1000;
      if (round > 0) rates.get(impl)?.push(units / seconds);
    }
  }
  return rates;
}

/** Rates of one contender divided by those of another, round by round. */
export function ratios(rates: Rates, impl: string, reference: string): number[] {
  const below = rates.get(reference) ?? [];
  return (rates.get(impl) ?? []).map((rate, i) => rate / below[i]);
}

export function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}
