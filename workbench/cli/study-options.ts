import { Option } from 'commander';
import { DEFAULT_THREADS } from './load-study.ts';
import { wholeNumber } from './option-values.ts';

/** Options that `choose` and `sweep` share. */
export function seedOption(): Option {
  return new Option('--seed <n>', 'seed of all random draws')
    .default(1)
    .argParser(wholeNumber(0, 4294967295));
}

export function threadsOption(): Option {
  return new Option('--threads <n>', 'threads to use; the result does not depend on it')
    .default(DEFAULT_THREADS)
    .argParser(wholeNumber(1, 64));
}

export function restOption(): Option {
  return new Option(
    '--rest <file.csv>',
    'noise of a recording at rest (first column time_s or time_ms, then counts) instead of the rig’s levels',
  );
}
