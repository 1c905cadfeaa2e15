import { beforeAll, describe, expect, it } from 'vitest';
import type { BoardText } from '../../workbench/bundle/make-program.ts';
import { noInterpreter } from '../interpreter.ts';
import { read } from '../specialise/literal-model.ts';
import { firstDifference } from './difference.ts';
import { GOLDEN_CASES, GOLDEN_STEPS } from './golden.ts';
import { madeProgram } from './made-program.ts';
import { type Case, cases } from './plans.ts';
import { type Outcome, runHost, runInterpreter, runSandbox, slotHints } from './runs.ts';

const ALL = cases(GOLDEN_CASES, GOLDEN_STEPS);
const PLAIN = ALL[0]!;

interface Made {
  text: BoardText;
  hints: string[];
  host: Outcome;
}

const made = new Map<Case, Made>();

async function madeOf(one: Case): Promise<Made> {
  const known = made.get(one);
  if (known) return known;
  const text = await madeProgram(one.plan);
  const hints = slotHints(text);
  const fresh = { text, hints, host: runHost(one, GOLDEN_STEPS, hints) };
  made.set(one, fresh);
  return fresh;
}

/** Numbers that are written as a division, written as decimals instead. */
function asDecimals(text: string, write: (value: number) => string): string {
  return text.replace(/\((\d+)\/(\d+(?:e\d+)?)\)/g, (_, a: string, b: string) =>
    write(Number(a) / Number(b)),
  );
}

describe('the comparison notices', () => {
  let text: BoardText;
  let hints: string[];
  let host: Outcome;

  beforeAll(async () => {
    ({ text, hints, host } = await madeOf(PLAIN));
  });

  it.each<[string, RegExp, string]>([
    ['two fingers changed over', /(\w)\[2\]=a=/, '$1[3]=a='],
    ['a word that is not kept in its range', /if\(a\*\w+>>16\)\{[^}]*\}/, ''],
    ['another gap', />=\.1\|\|/, '>=.5||'],
    ['steps without frame not counted', /(function \w+\(\)\{)(\w\+=1;)(if\([^{]*\{)/, '$1$3$2'],
    ['a clip that lets all through', /\{a=\w+\(a,\w+\)\}/, '{a=a}'],
    ['a check cut elsewhere', /\(\)>>>10/, '()>>>9'],
    ['a still band that lets more through', /\*a>(\w)\)/, '*a>=$1/2)'],
    ['a constant of the words', /52429/, '52428'],
    ['numbers of new ends in the last place', /\*(\w+)\*\1;/g, '*($1*$1);'],
    ['errors not counted', /(\w<65534\)\{\w)\+=1/g, '$1+=0'],
    ['a health frame one step late', />=100\)\{/, '>100){'],
    ['a raw reading off by one', /\*4096;/, '*4095;'],
    ['a record with another length', /=108\b/, '=110'],
    ['a repeated command done again', /if\(\w+===\$\.last\)return \w+;/, ''],
    ['a wiper taken for open too late', /<\((\d+)\/100\)\|\|\w>>0&1/, '<0'],
  ])('%s', (_, place, by) => {
    const faulty = text.text.replace(place, by);
    expect(faulty).not.toBe(text.text);
    expect(firstDifference(host, runSandbox(PLAIN, text, GOLDEN_STEPS, hints, faulty), hints)).toBeDefined();
  });

  it('decimals as the interpreter misreads them, in the doubles', () => {
    // what the interpreter makes of the decimal, by the model of its reader
    const misread = asDecimals(text.text, (value) => String(read(String(value))));
    expect(misread).not.toBe(asDecimals(text.text, String));
    const sandbox = runSandbox(PLAIN, text, GOLDEN_STEPS, hints, misread);
    expect(firstDifference(host, sandbox, hints)).toMatch(/^states/);
    // and nothing but the misreading makes the difference
    const right = runSandbox(PLAIN, text, GOLDEN_STEPS, hints, asDecimals(text.text, String));
    expect(firstDifference(host, right, hints)).toBeUndefined();
  });

  it.skipIf(noInterpreter)('decimals that the interpreter does misread', () => {
    const decimals = asDecimals(text.text, String);
    const board = runInterpreter(PLAIN, text, 100, hints, decimals);
    expect(firstDifference(runHost(PLAIN, 100, hints), board, hints)).toMatch(/^states/);
  });

  it.each<[string, (one: Case) => boolean, string]>([
    [
      'a sum that leaves the last reading out',
      () => true,
      'E.sum = function (a) { return sum(a.subarray(0, a.length - 1)); };',
    ],
    ['a clock in ms', () => true, 'var now = getTime; getTime = function () { return now() * 1000; };'],
    [
      'a check over one byte less',
      () => true,
      'E.CRC32 = function (x) { return crc(x.length === 18 ? x.subarray(0, 17) : x); };',
    ],
    [
      'buttons read in the other order',
      (one) => one.choice.buttons > 1,
      'var pins = digitalRead; digitalRead = function (list) { return pins(list.slice().reverse()); };',
    ],
    [
      'select lines in the other order',
      (one) => one.choice.multiplexer && one.choice.slots.length > 1,
      'var lines = digitalWrite; digitalWrite = function (list, value) { lines(list.slice().reverse(), value); };',
    ],
    [
      'a packet that does not come',
      () => true,
      'var adv = WORLD.advance; WORLD.advance = function (n) { var t = adv(n); return n < 30 ? undefined : t; };',
    ],
  ])('%s of the board', async (_, fits, more) => {
    const one = ALL.find(fits)!;
    const other = await madeOf(one);
    const shims = `var sum = E.sum, crc = E.CRC32; ${more}`;
    const sandbox = runSandbox(one, other.text, GOLDEN_STEPS, other.hints, other.text.text, shims);
    expect(firstDifference(other.host, sandbox, other.hints)).toBeDefined();
  });
});

describe('the program', () => {
  it('does not mind whether the native check is signed', async () => {
    const { text, hints, host } = await madeOf(PLAIN);
    const shims = 'var crc = E.CRC32; E.CRC32 = function (x) { return crc(x) | 0; };';
    const sandbox = runSandbox(PLAIN, text, GOLDEN_STEPS, hints, text.text, shims);
    expect(firstDifference(host, sandbox, hints)).toBeUndefined();
  });

  it('sets the board up once, before it starts its timer', async () => {
    const one = ALL.find((c) => !c.choice.isPlainBoard && c.choice.multiplexer && c.choice.buttons === 1)!;
    const { text, hints } = await madeOf(one);
    const atten = [...new Set(one.plan.fingers.map((f) => f.pin))].map((pin) => `setAtten ${pin} 2000`);
    expect(runSandbox(one, text, 1, hints).setUp).toEqual([
      'echo 0',
      'pinMode 18 input_pullup',
      'pinMode 25 output',
      'pinMode 26 output',
      'pinMode 27 output',
      ...atten,
      'setup 921600 17',
      'watchdog 9',
      `every ${Math.round(1e6 / one.plan.frameRateHz)} us`,
    ]);
  });
});
