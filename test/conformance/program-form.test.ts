import { describe, expect, it } from 'vitest';
import { subsetProblems } from '../../specialise/subset.ts';
import { noInterpreter, runOnInterpreter } from '../interpreter.ts';
import { madeProgram } from './made-program.ts';
import { cases } from './plans.ts';

const PLAIN = cases(1, 1)[0]!.plan;

/** Variables that a program takes: its text in the file store, as on a board, or in memory. */
function variablesOf(program: string, isStored: boolean): number {
  const store = isStored ? 'require("Storage").write("p",TEXT);TEXT=undefined;' : '';
  const text = isStored ? 'require("Storage").read("p")' : 'TEXT';
  const { lines } = runOnInterpreter(`
function analogRead(pin){return 0.5}
var TEXT=${JSON.stringify(program)},BEFORE=0;${store}
BEFORE=process.memory().usage;
eval(${text});
print("USED "+(process.memory().usage-BEFORE));
clearInterval();`);
  return Number(/^USED (\d+)$/.exec(lines.at(-1)!)![1]);
}

describe('a finished program', () => {
  it('is ASCII and holds nothing that the interpreter misreads', async () => {
    const { text } = await madeProgram(PLAIN);
    expect(text).toMatch(/^[\n -~]+$/);
    expect(subsetProblems(text)).toEqual([]);
    // what the last look would find
    expect(subsetProblems(`${text}$t=0.3;`)).toHaveLength(1);
  });

  /**
   * Measured on 2v29.277 c5ff787: 327, of which the declared names take 117, arrays and bound natives 128, functions 46
   * and the start 36; boards have 4095 or 16383 at most. It may not grow unseen.
   */
  it.skipIf(noInterpreter)('of a plain hand takes no more variables than it did', async () => {
    const { text, variables } = await madeProgram(PLAIN);
    const stored = variablesOf(text, true);
    const inMemory = variablesOf(text, false);
    expect(stored).toBeLessThanOrEqual(335);
    // it has so many names at least
    expect(stored).toBeGreaterThan(variables);
    // the text of about 15000 bytes, 27 to a variable
    expect(inMemory - stored).toBeGreaterThan(450);
  });
});
