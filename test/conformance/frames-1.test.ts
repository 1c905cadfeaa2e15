// in two files, so that two cores share the work
import { compareCases, STEPS } from './case-suite.ts';
import { GOLDEN_CASES } from './golden.ts';
import { cases } from './plans.ts';

compareCases(
  cases(GOLDEN_CASES, STEPS).filter((_, i) => i % 2 === 0),
  1,
);
