import { describe, expect, it } from 'vitest';
import { SpecialiseError } from '../../specialise/problem.ts';
import { make, type Sample } from './sample.ts';
import { tools } from './tools.ts';

function refusal(sample: Sample): { message: string; at: string } {
  try {
    make(tools, { isBlind: true, s: { a: 1 }, ...sample });
  } catch (error) {
    if (!(error instanceof SpecialiseError)) throw error;
    return { message: error.message, at: sample.source.slice(error.offset, error.offset + 12) };
  }
  throw new Error('not refused');
}

describe('what cannot be specialised is refused with its place', () => {
  it.each([
    ['an unknown name', 'function frame(p, x) { p.s.a = y1; }', 'the unknown name y1', 'y1; }'],
    ['an unknown function', 'function frame(p, x) { g(x); }', 'the unknown name g', 'g(x); }'],
    [
      'a global of the interpreter',
      'function frame(p) { p.s.a = Math.sqrt(2); }',
      'the unknown name Math',
      'Math.sqrt(2)',
    ],
    [
      'a field that is not there',
      'function frame(p) { p.s.a = p.s.z; }',
      'the field z, which is not there',
      'p.s.z; }',
    ],
    [
      'a fixed field assigned',
      'function frame(p, x) { p.k.n = x; }',
      'an assignment to a field that is fixed',
      'p.k.n = x; }',
    ],
    ['a const assigned', 'function frame(p, x) { const c = x; c = 2; }', 'an assignment to c', 'c = 2; }'],
    ['a parameter assigned', 'function frame(p, x) { x = 2; }', 'an assignment to x', 'x = 2; }'],
    ['an unknown index', 'function frame(p, x) { p.s.a = p.list[x]; }', 'the field list', 'p.list[x]; }'],
    [
      'a known list with an unknown index',
      'function frame(p, x) { p.s.a = p.k[x]; }',
      'an index that is not known',
      'p.k[x]; }',
    ],
    ['an object as a value', 'function frame(p, x) { p.s.a = p.t; }', 'an object', 'p.t; }'],
    ['while', 'function frame(p, x) { while (x) p.s.a = 1; }', 'a WhileStatement', 'while (x) p.'],
    [
      'switch',
      'function frame(p, x) { switch (x) { case 1: p.s.a = 1; } }',
      'a SwitchStatement',
      'switch (x) {',
    ],
    [
      'an unknown loop bound',
      'function frame(p, x) { for (let i = 0; i < x; i++) p.s.a = i; }',
      'a loop bound',
      'i < x; i++) ',
    ],
    [
      'an endless loop',
      'function frame(p) { for (let i = 0; i < 1; i += 0) p.s.a = i; }',
      'more than 64 turns',
      'for (let i =',
    ],
    [
      'a step of another counter',
      'function frame(p) { for (let i = 0; i < 2; i++) for (let j = 0; j < 2; i++) p.s.a = j; }',
      'a step that changes',
      'i++) p.s.a =',
    ],
    [
      'a counter assigned',
      'function frame(p) { for (let i = 0; i < 2; i++) i = 5; }',
      'an assignment to i',
      'i = 5; }',
    ],
    [
      'a return in a loop',
      'function frame(p) { for (let i = 0; i < 2; i++) return i; }',
      'a return inside a loop',
      'for (let i =',
    ],
    [
      'a return in try',
      'function frame(p) { try { return 1; } catch (e) {} }',
      'a return inside try',
      'try { return',
    ],
    [
      'finally',
      'function frame(p) { try { p.s.a = 1; } finally { p.s.a = 2; } }',
      'try without catch',
      'try { p.s.a ',
    ],
    [
      'what was thrown',
      'function frame(p, x) { const e = x; try { p.io.n(x); } catch (e) { p.s.a = e; } }',
      'e; expected',
      'e; } }',
    ],
    [
      'recursion',
      'function f(x) { return f(x); } function frame(p, x) { p.s.a = f(x); }',
      'f within 40 calls',
      'function f(x',
    ],
    [
      'kept recursion',
      'function f(x) { return f(x); } function frame(p, x) { p.s.a = f(x); }',
      'f within 40 calls',
      'function f(x',
      ['f'],
    ],
    ['var', 'function frame(p, x) { var u = x; p.s.a = u; }', 'var; expected', 'var u = x; p'],
    ['a pattern', 'function frame(p, x) { const { a } = p.s; }', 'a pattern', 'const { a } '],
    [
      'a default',
      'function f(x = 1) { return x; } function frame(p) { p.s.a = f(); }',
      'a parameter that is',
      'x = 1) { ret',
    ],
    [
      'a rest parameter',
      'function f(...x) { return x; } function frame(p) { p.s.a = f(); }',
      'a parameter that is',
      '...x) { retu',
    ],
    ['a spread', 'function frame(p, x) { p.io.n(...x); }', 'a spread', '...x); }'],
    [
      'async',
      'async function f(x) { return x; } function frame(p, x) { p.s.a = f(x); }',
      'f, which can pause',
      'async functi',
    ],
    [
      'a generator',
      'function* f(x) { return x; } function frame(p, x) { p.s.a = f(x); }',
      'f, which can pause',
      'function* f(',
    ],
    [
      'an assignment as a value',
      'function frame(p, x) { p.s.a = p.s.b = x; }',
      'a AssignmentExpression',
      'p.s.b = x; }',
    ],
    ['an increment', 'function frame(p, x) { p.s.a++; }', 'a UpdateExpression', 'p.s.a++; }'],
    ['a power', 'function frame(p, x) { p.s.a = x ** 2; }', 'a BinaryExpression', 'x ** 2; }'],
    ['loose equality', 'function frame(p, x) { p.s.a = x == 2; }', 'a BinaryExpression', 'x == 2; }'],
    ['optional access', 'function frame(p, x) { p.s.a = p?.s; }', 'a ChainExpression', 'p?.s; }'],
    ['a default value', 'function frame(p, x) { p.s.a = x ?? 2; }', 'a LogicalExpression', 'x ?? 2; }'],
    ['a new object', 'function frame(p, x) { p.s.a = { x }; }', 'a ObjectExpression', '{ x }; }'],
    [
      'a function in a function',
      'function frame(p, x) { p.io.n(() => x); }',
      'a ArrowFunctionExpression',
      '() => x); }',
    ],
    ['delete', 'function frame(p, x) { p.s.a = delete p.io.a; }', 'delete', 'delete p.io.'],
    [
      'code outside functions',
      'let u = 1; function frame(p) {}',
      'a VariableDeclaration outside',
      'let u = 1; f',
    ],
    [
      'an import',
      'import { u } from "v"; function frame(p) {}',
      'a ImportDeclaration outside',
      'import { u }',
    ],
  ])('%s', (_, source, seen, at, kept: string[] = []) => {
    const found = refusal({ source, k: { n: 1 }, t: { a: 1 }, kept });
    expect(found.message).toContain(seen);
    expect(found.at).toBe(at);
  });
});
