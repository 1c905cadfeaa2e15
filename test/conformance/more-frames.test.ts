import { describe, expect, it } from 'vitest';
import { makeProgram } from '../../workbench/bundle/make-program.ts';
import { firstDifference } from './difference.ts';
import { GOLDEN_CASES } from './golden.ts';
import { cases } from './plans.ts';
import { runHost, runSandbox, slotHints } from './runs.ts';

const MORE = process.env.TAUTLINE_VERIFY === '1' ? 100 : 2;
const STEPS = 2000;

describe('more rigs', () => {
  it.each(cases(GOLDEN_CASES + MORE, STEPS).slice(GOLDEN_CASES))(
    '$name: functions and program text give the same',
    async (one) => {
      const text = await makeProgram(one.plan);
      const hints = slotHints(text);
      const host = runHost(one, STEPS, hints);
      expect(firstDifference(host, runSandbox(one, text, STEPS, hints), hints)).toBeUndefined();
    },
  );
});
