import { beforeAll, describe, expect, it } from 'vitest';
import type { BoardText } from '../../workbench/bundle/make-program.ts';
import { noInterpreter } from '../interpreter.ts';
import { firstDifference } from './difference.ts';
import { digests, GOLDEN_STEPS, RUN_AGAIN, readGolden, sha256 } from './golden.ts';
import { madeProgram } from './made-program.ts';
import type { Case } from './plans.ts';
import { type Outcome, runHost, runInterpreter, runSandbox, slotHints } from './runs.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';
/** Steps of the long comparison, and how much the interpreter is asked for in the short one. */
export const STEPS = IS_LONG ? 10_000 : GOLDEN_STEPS;
const INTERPRETER_STEPS = IS_LONG ? GOLDEN_STEPS : 60;

/** Compares the three runs of some cases. @param onInterpreter how many of them go to the interpreter in short runs */
export function compareCases(list: Case[], onInterpreter: number): void {
  const golden = readGolden();
  const texts = new Map<string, string>();

  describe.each(list.map((one, i) => ({ name: one.name, one, i })))('$name', ({ one, i }) => {
    let text: BoardText;
    let hints: string[];
    let host: Outcome;

    beforeAll(async () => {
      text = await madeProgram(one.plan);
      texts.set(one.name, sha256(text.text));
      hints = slotHints(text);
      host = runHost(one, STEPS, hints);
    });

    it('the functions and the program text give the same frames, byte by byte, and the same doubles', () => {
      expect(firstDifference(host, runSandbox(one, text, STEPS, hints), hints)).toBeUndefined();
    });

    it('both give what the interpreter gave', () => {
      const wanted = golden.cases.find((g) => g.name === one.name);
      expect(wanted, `there is no such case: ${RUN_AGAIN}`).toBeDefined();
      const { name: _, program: __, ...all } = wanted!;
      const short = STEPS === GOLDEN_STEPS ? host : runHost(one, GOLDEN_STEPS, hints);
      expect(digests(short)).toEqual(all);
    });

    // long: two to six seconds a case
    it.skipIf(noInterpreter || (!IS_LONG && i >= onInterpreter))(
      'the interpreter gives the same',
      { timeout: 90_000 },
      () => {
        const board = runInterpreter(one, text, INTERPRETER_STEPS, hints);
        expect(firstDifference(runHost(one, INTERPRETER_STEPS, hints), board, hints)).toBeUndefined();
      },
    );
  });

  it('the programs are those that the interpreter ran', () => {
    const others = list.filter(
      ({ name }) => texts.get(name) !== golden.cases.find((g) => g.name === name)?.program,
    );
    expect(
      others.map(({ name }) => name),
      `these programs are others than those that ${golden.interpreter} ran: ${RUN_AGAIN}`,
    ).toEqual([]);
  });
}
