import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choices, programOf } from './random-program.ts';
import { faultOf } from './sample.ts';
import { tools } from './tools.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';
const PROGRAMS = IS_LONG ? 6000 : 150;

describe('random programs', () => {
  it('do the same when specialised: calls, stores, results, throws and all that is remembered, bit by bit', () => {
    fc.assert(
      fc.property(choices, (row) => {
        const sample = programOf(row);
        const fault = faultOf(tools, sample);
        if (fault !== '') expect.fail(`${fault}\n\n${sample.source}\nkept: ${sample.kept}`);
      }),
      { numRuns: PROGRAMS },
    );
  });
});
