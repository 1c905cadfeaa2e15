/**
 * Runs all cases on the interpreter and writes what came out: TAUTLINE_INTERPRETER=... npx tsx <this file>. Nothing is
 * written if the functions give other frames: then one of the two is wrong.
 */
import { writeFileSync } from 'node:fs';
import { makeProgram } from '../../workbench/bundle/make-program.ts';
import { firstDifference } from './difference.ts';
import { digests, GOLDEN_CASES, GOLDEN_FILE, GOLDEN_STEPS, type GoldenCase, sha256 } from './golden.ts';
import { cases } from './plans.ts';
import { runHost, runInterpreter, slotHints } from './runs.ts';

const made: GoldenCase[] = [];
let interpreter = '';
for (const one of cases(GOLDEN_CASES, GOLDEN_STEPS)) {
  const text = await makeProgram(one.plan);
  const hints = slotHints(text);
  const outcome = runInterpreter(one, text, GOLDEN_STEPS, hints);
  const difference = firstDifference(runHost(one, GOLDEN_STEPS, hints), outcome, hints);
  if (difference !== undefined)
    throw new Error(`${one.name}: functions and interpreter differ: ${difference}`);
  interpreter = outcome.version;
  made.push({ name: one.name, program: sha256(text.text), ...digests(outcome) });
  console.error(`${one.name}: ${outcome.frames.length} frames`);
}
writeFileSync(GOLDEN_FILE, `${JSON.stringify({ interpreter, steps: GOLDEN_STEPS, cases: made }, null, 2)}\n`);
