/** Runs all cases on the interpreter and writes what came out: TAUTLINE_INTERPRETER=... npx tsx <this file> */
import { writeFileSync } from 'node:fs';
import { makeProgram } from '../../workbench/bundle/make-program.ts';
import { GOLDEN_CASES, GOLDEN_FILE, GOLDEN_STEPS, type GoldenCase, goldenCase } from './golden.ts';
import { cases } from './plans.ts';
import { runInterpreter, slotHints } from './runs.ts';

const made: GoldenCase[] = [];
let interpreter = '';
for (const one of cases(GOLDEN_CASES)) {
  const text = await makeProgram(one.plan);
  const outcome = runInterpreter(one, text, GOLDEN_STEPS, slotHints(text));
  interpreter = outcome.version;
  made.push(goldenCase(one.name, text.text, outcome));
  console.error(`${one.name}: ${outcome.frames.length} frames`);
}
writeFileSync(GOLDEN_FILE, `${JSON.stringify({ interpreter, steps: GOLDEN_STEPS, cases: made }, null, 2)}\n`);
