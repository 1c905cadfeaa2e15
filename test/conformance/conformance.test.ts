import { beforeAll, describe, expect, it } from 'vitest';
import { type BoardText, makeProgram } from '../../workbench/bundle/make-program.ts';
import { noInterpreter } from '../interpreter.ts';
import { GOLDEN_CASES, GOLDEN_STEPS, goldenCase, readGolden, sha256 } from './golden.ts';
import { cases } from './plans.ts';
import { runHost, runInterpreter, runSandbox, slotHints } from './runs.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';
const STEPS = IS_LONG ? 10_000 : GOLDEN_STEPS;
const ALL = cases(GOLDEN_CASES);
const golden = readGolden();

describe.each(ALL)('$name', (one) => {
  let text: BoardText;
  let hints: string[];

  beforeAll(async () => {
    text = await makeProgram(one.plan);
    hints = slotHints(text);
  });

  it('the functions and the program text give the same frames, byte by byte, and the same doubles', () => {
    const host = runHost(one, STEPS, hints);
    const sandbox = runSandbox(one, text, STEPS, hints);
    expect(sandbox.frames).toEqual(host.frames);
    expect(sandbox.states).toEqual(host.states);
    // stopped steps and repeated times make no frame, replies and health frames come on top
    expect(host.frames.length).toBeGreaterThan(0.95 * STEPS);
    expect(new Set(host.frames).size).toBe(host.frames.length);
  });

  it('both give what the interpreter gave', () => {
    const wanted = golden.cases.find((g) => g.name === one.name);
    expect(goldenCase(one.name, text.text, runHost(one, GOLDEN_STEPS, hints))).toEqual(wanted);
    expect(
      sha256(text.text),
      'the program is another than the one that the interpreter ran: run test/conformance/make-golden.ts',
    ).toBe(wanted?.program);
  });

  // long: two to six seconds a case
  it.skipIf(noInterpreter || !IS_LONG)('the interpreter gives it again', { timeout: 60_000 }, () => {
    const host = runHost(one, GOLDEN_STEPS, hints);
    const board = runInterpreter(one, text, GOLDEN_STEPS, hints);
    expect(board.frames).toEqual(host.frames);
    expect(board.states).toEqual(host.states);
    expect(board.reads).toBe(host.reads);
  });
});

describe('the comparison', () => {
  const one = ALL[0]!;
  const faults: [string, RegExp, string][] = [
    ['two fingers changed over', /(\w)\[2\]=a=/, '$1[3]=a='],
    ['a word that is not kept in its range', /if\(a\+1>>16\)\{[^}]*\}/, ''],
    ['another gap', />=\.1\|\|/, '>=.5||'],
    ['steps without frame not counted', /(function \w+\(\)\{)(\w\+=1;)(if\([^{]*\{)/, '$1$3$2'],
    ['a clip that lets all through', /\{a=\w+\(a,\w+\)\}/, '{a=a}'],
    ['a check cut elsewhere', /\(\)>>>10/, '()>>>9'],
    ['a still band that lets more through', /\*a>(\w)\)/, '*a>=$1/2)'],
  ];

  it.each(faults)('notices %s', async (_, place, by) => {
    const text = await makeProgram(one.plan);
    const hints = slotHints(text);
    const faulty = text.text.replace(place, by);
    expect(faulty).not.toBe(text.text);
    const host = runHost(one, GOLDEN_STEPS, hints);
    const sandbox = runSandbox(one, text, GOLDEN_STEPS, hints, faulty);
    expect(sandbox.frames).not.toEqual(host.frames);
  });

  it.skipIf(noInterpreter)('notices decimals that the interpreter misreads', async () => {
    const text = await makeProgram(one.plan);
    const hints = slotHints(text);
    const host = runHost(one, 200, hints);
    const board = runInterpreter(one, text, 200, hints);
    expect(board.frames).toEqual(host.frames);
    expect(board.states).toEqual(host.states);
    const raw = text.text.replace(/\((\d+)\/(\d+(?:e\d+)?)\)/g, (_, a: string, b: string) =>
      String(Number(a) / Number(b)),
    );
    expect(raw).not.toBe(text.text);
    expect(runInterpreter(one, text, 200, hints, raw).states).not.toEqual(host.states);
  });
});
