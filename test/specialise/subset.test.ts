import { createContext, runInContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { INTERPRETER_NAMES, subsetProblems } from '../../specialise/subset.ts';
import { noInterpreter, runOnInterpreter } from '../interpreter.ts';
import { CONSTRUCTS } from './constructs-table.ts';

const IS_LONG = process.env.TAUTLINE_VERIFY === '1';

describe('the check of finished programs', () => {
  it.each(['same', 'missed'] as const)('lets pass what it is not to refuse: %s', (verdict) => {
    const refused = CONSTRUCTS.filter(([program, v]) => v === verdict && subsetProblems(program).length > 0);
    expect(refused).toEqual([]);
  });

  it.each(['differs', 'strict'] as const)('refuses the rest: %s', (verdict) => {
    const passed = CONSTRUCTS.filter(([program, v]) => v === verdict && subsetProblems(program).length === 0);
    expect(passed).toEqual([]);
  });

  it('misses little of what the interpreter does otherwise', () => {
    const count = (verdict: string) => CONSTRUCTS.filter(([, v]) => v === verdict).length;
    expect({
      refused: count('differs'),
      missed: count('missed'),
      passed: count('same'),
      strict: count('strict'),
    }).toEqual({
      refused: 126,
      missed: 16,
      passed: 161,
      strict: 21,
    });
  });

  it.each([
    ['var a=1;\nvar b=a?.c;', 15, '?.'],
    ['f();function f(){}', 0, 'f before its declaration'],
    ['function f(){return g()}function g(){}', -1, ''],
    ['function f(){x=1;var x}', 13, 'x before its declaration'],
    ['function f(){return x}var x=1;', -1, ''],
    ['print(nothing)', 6, 'the name nothing, which nothing declares'],
    ['var a=D12,b=A0;analogRead(a)', -1, ''],
    ['var a={of:1,b:2};print(a.of)', -1, ''],
    ['var a=0.3;', 6, '0.3, which it reads as 0.30000000000000004'],
    ['var a=(3/10)', -1, ''],
    ['var s="a\u00e9"', 8, 'the character \u00e9'],
    ['function f(){return\n1}', 13, 'a return that ends with its line'],
    ['function f(){return;\nprint(1)}', -1, ''],
    ['function f(){return}', -1, ''],
    ['for(let i=0;i<2;i++)setTimeout(function(){print(i)},1)', 48, 'i of a loop in a function made there'],
    ['for(let i=0;i<2;i++){let j=i;setTimeout(function(){print(j)},1)}', -1, ''],
    ['var x=1;function k(){x=2;return 1}x+=k()', 34, 'x, which the right side of += may change'],
    ['var x=1;function k(){var x=2;return x}x+=k()', -1, ''],
    ['switch(1){default:print(1);case 2:print(2)}', 0, 'a case behind default'],
    ['var a=[1];a.length=0', 10, 'an assignment to length'],
    [`var ${'n'.repeat(64)}=1`, 4, 'a name of 64 characters'],
    [`var ${'n'.repeat(63)}=1`, -1, ''],
    ['var a=Math.sqrt(2)', 6, 'Math.sqrt, which is not there or gives other numbers'],
    ['export var a=1', 0, 'import'],
  ])('tells where: %s', (program, offset, seen) => {
    const [first] = subsetProblems(program);
    expect(first?.offset ?? -1).toBe(offset);
    if (offset >= 0) expect(first!.seen).toContain(seen);
  });

  it('takes the names that it is told', () => {
    expect(subsetProblems('host.n(1)', new Set(['host']))).toEqual([]);
    expect(subsetProblems('analogRead(D4)', new Set(['host']))).toHaveLength(1);
    expect(INTERPRETER_NAMES.has('analogRead')).toBe(true);
  });
});

describe('the interpreter', () => {
  const text = (v: unknown) => (Object.is(v, -0) ? '0' : String(v));

  function inNode(program: string): string {
    const lines: string[] = [];
    const print = (...values: unknown[]) => lines.push(values.map(text).join(' '));
    try {
      runInContext(program, createContext({ print, console, setTimeout }));
    } catch (error) {
      lines.push(`threw ${error instanceof Error}`);
    }
    return lines.join('|');
  }

  function onInterpreter(program: string): string {
    for (let attempt = 0; ; attempt++) {
      try {
        return runOnInterpreter(program).lines.join('|');
      } catch (error) {
        // its Linux build stops now and then by itself
        if (!String(error).includes('ASSERT') || attempt > 3) return 'stopped';
      }
    }
  }

  it.skipIf(noInterpreter)(
    'prints what the table says: the same as node or not',
    { timeout: 120_000 },
    () => {
      const rows = CONSTRUCTS.filter((_, i) => IS_LONG || i % 10 === 0);
      const wrong = rows.filter(([program, verdict]) => {
        const isSame = inNode(program) === onInterpreter(program);
        return isSame !== (verdict === 'same' || verdict === 'strict');
      });
      expect(wrong).toEqual([]);
    },
  );
});
