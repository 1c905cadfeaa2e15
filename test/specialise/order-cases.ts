/** Cases in which something is read before or after it changes. */
import { NEXT, SET_A, SET_A_KEPT, sample } from './case-parts.ts';
import type { Sample } from './sample.ts';

export const ALIASING: Record<string, Sample> = {
  'old state in a const across its update': sample(
    'function frame(p, x) { const old = p.s.a; p.s.a = x; p.s.b = old; return old + p.s.a; }',
  ),
  'old state in a const across two updates': sample(
    'function frame(p, x) { const old = p.s.a; p.s.a = old + x; p.s.a = old * x + p.s.a; p.io.see(old); return old; }',
  ),
  'old state in a let that changes itself': sample(
    'function frame(p, x) { let old = p.s.a; p.s.a = x; if (x > 0) old = old + 1; p.s.b = old; }',
  ),
  'a change of places': sample('function frame(p) { const a = p.s.a; p.s.a = p.s.b; p.s.b = a; }'),
  'three in a ring': sample(
    'function frame(p, x) { const a = p.s.a; const b = p.s.b; p.s.a = p.s.c; p.s.b = a; p.s.c = b + x; }',
  ),
  'one object as two arguments': sample(`
    function both(u, v, x) { u.a = v.a + x; v.b = u.a * 2; return u.a - v.a; }
    function frame(p, x) { return both(p.s, p.s, x) + both(p.s, p.t, x); }`),
  'the same object under two names': sample(
    'function frame(p, x) { const before = p.same.a; p.s.a = x; return p.same.a - before; }',
  ),
  'an argument that the callee changes': sample(`
    function f(s, v) { s.a = v + 1; return v + s.a; }
    function frame(p, x) { return f(p.s, p.s.a) + x; }`),
  'an argument that a branch of the callee changes': sample(`
    function f(s, v, x) { if (x > 0) s.a = 5; return v; }
    function frame(p, x) { return f(p.s, p.s.a, x); }`),
  'a parameter copied before its origin changes': sample(`
    function g(s, v) { const w = v; s.a = 0.5; s.b = w; }
    function frame(p, x) { let z = x; z = z + p.s.a; g(p.s, z); z = 2; return z + p.s.b; }`),
  'an element read before a store': sample(
    'function frame(p, x) { const old = p.io.a[1]; p.io.a[1] = x; p.s.a = old; return old - p.io.a[1]; }',
  ),
  'an element read before a call': sample(
    'function frame(p, x) { const old = p.io.a[1]; p.io.n(x); p.io.a[1] = x; return old; }',
  ),
  'a copy of a copy': sample(
    'function frame(p, x) { const u = p.s.a; const v = u; p.s.a = x; const w = v; p.s.b = w + u; }',
  ),
  'a copy that only one branch overtakes': sample(`
    function frame(p, x) {
      const old = p.s.a;
      if (x > 0) { p.s.a = x; p.io.see(1); } else p.io.see(0);
      p.s.b = old; return old;
    }`),
  'a copy overtaken in a kept function': sample(
    `${SET_A} function frame(p, x) { const old = p.s.a; setA(p.s, x); p.s.b = old; return old; }`,
    SET_A_KEPT,
  ),
};

export const ORDER: Record<string, Sample> = {
  'left side before an inlined write': sample(
    `${SET_A} function frame(p, x) { return p.s.a * 10 + setA(p.s, x); }`,
  ),
  'left side before a kept write': sample(
    `${SET_A} function frame(p, x) { return p.s.a * 10 + setA(p.s, x); }`,
    SET_A_KEPT,
  ),
  'a bare name before an inlined write': sample(
    `${SET_A} function frame(p, x) { return p.s.a - setA(p.s, x); }`,
  ),
  'a bare name before a kept write': sample(
    `${SET_A} function frame(p, x) { return p.s.a - setA(p.s, x); }`,
    SET_A_KEPT,
  ),
  'a const before a kept write in the same expression': sample(
    `${SET_A} function frame(p, x) { const old = p.s.a; p.s.b = old + setA(p.s, x); }`,
    SET_A_KEPT,
  ),
  'a compound assignment with a kept write of itself': sample(
    `${SET_A} function frame(p, x) { p.s.a += setA(p.s, x); return p.s.a; }`,
    SET_A_KEPT,
  ),
  'a compound assignment with an inlined write of itself': sample(
    `${SET_A} function frame(p, x) { p.s.a *= setA(p.s, x); return p.s.a; }`,
  ),
  'call arguments': sample(`${NEXT}
    function three(u, v, w) { return u * 100 + v * 10 + w; }
    function frame(p, x) { return three(p.s.a, next(p.s), p.s.a + x); }`),
  'arguments of a native': sample(
    `${NEXT} function frame(p, x) { p.io.see(p.s.a, next(p.s), p.s.a, next(p.s), x); }`,
  ),
  'arguments of a native with a kept function': sample(
    `${NEXT} function frame(p, x) { p.io.see(p.s.a, next(p.s), p.s.a, next(p.s), x); }`,
    { kept: ['next'] },
  ),
  'natives among arguments': sample(
    'function pair(u, v) { return v - u; } function frame(p, x) { return pair(p.io.n(x), p.io.m(x + 1)) + p.io.n(2); }',
  ),
  'an element, a call, then statements': sample(`
    function store(io, v) { io.a[1] = v; return io.a[1]; }
    function frame(p, x) { p.io.see(p.io.a[0], p.io.n(1), store(p.io, x)); p.io.see(p.io.a[1], store(p.io, x + 1)); }`),
  'an element left of a call': sample('function frame(p, x) { return p.io.a[0] + p.io.n(x) * p.io.a[1]; }'),
  'a read that stays while its right neighbour is kept apart': sample(`
    function peekAt(io) { const e = io.a[2]; io.see(e); return e; }
    function frame(p, x) { p.io.a[2] = x; p.io.see(p.io.a[0], p.io.n(x), peekAt(p.io)); }`),
  'an element that a call to its right changes, with statements behind': sample(`
    function squared(io) { const e = io.a[1]; return e * e; }
    function frame(p, x) { p.io.see(p.io.a[3] * 2, p.io.n(x), squared(p.io)); }`),
  'an index': sample(`${NEXT}
    function frame(p, x) { p.io.a[(p.s.a + next(p.s)) & 3] = p.s.a; return p.io.a[next(p.s) & 3]; }`),
  'an index and a value that changes it': sample(
    `${NEXT} function frame(p, x) { p.io.a[p.s.a & 3] = next(p.s) + x; }`,
    { kept: ['next'] },
  ),
  'a write in one branch of a choice': sample(
    `${NEXT} function frame(p, x) { return (x > 0 ? next(p.s) : p.s.a) * 10 + p.s.a; }`,
  ),
  'a write in the test of a choice': sample(
    `${NEXT} function frame(p, x) { return next(p.s) > x ? p.s.a : p.s.a - 1; }`,
  ),
  'a choice left of a write': sample(
    `${NEXT} function frame(p, x) { return (x > 0 ? p.s.a : p.s.b) + next(p.s); }`,
    { kept: ['next'] },
  ),
  'a write on the right of and': sample(
    `${NEXT} function frame(p, x) { if (x > 0 && next(p.s) > 3) p.s.b = p.s.a; return p.s.a; }`,
  ),
  'a write on the right of or': sample(
    `${NEXT} function frame(p, x) { if (x > 0 || next(p.s) > 3) p.s.b = p.s.a; return p.s.a; }`,
  ),
  'or as a value': sample('function frame(p, x) { p.s.a = x || p.io.n(1); p.s.b = (x && p.io.m(2)) || 5; }'),
  'a kept write that must not run on the untaken side': sample(
    `${NEXT} function frame(p, x) { const v = next(p.s); if (x > 0) p.s.b = v; }`,
    { kept: ['next'] },
  ),
  'a native that must run though only one side uses it': sample(
    'function frame(p, x) { const v = p.io.n(x); if (x > 0) p.s.b = v; }',
  ),
  'a kept write whose result nobody uses': sample(
    `${NEXT} function frame(p, x) { next(p.s); const v = next(p.s); }`,
    {
      kept: ['next'],
    },
  ),
  'a kept write in a test that decides nothing': sample(
    `${NEXT} function frame(p, x) { p.s.b = (next(p.s) > 1 ? 2 : 3) > 1 ? x : 7; if (next(p.s) > 2 ? 1 : 2) p.s.c = x; }`,
    { kept: ['next'] },
  ),
  'a native moved past a read of what a kept function wrote': sample(
    `${NEXT} function frame(p, x) { const u = p.io.n(x); next(p.s); p.io.see(p.s.a); p.s.b = u; }`,
    { kept: ['next'] },
  ),
  'two natives read the other way round': sample(
    'function frame(p, x) { const u = p.io.n(x); const v = p.io.m(x); return v - u; }',
  ),
  'two kept stores read the other way round': sample(
    'function put(io, v) { io.a[0] = v; return v * 2; } function frame(p, x, y) { const u = put(p.io, x); const v = put(p.io, y); return v - u; }',
    { kept: ['put'] },
  ),
  'natives not changing places': sample(
    'function frame(p, x) { const u = p.io.n(x); const v = p.io.m(x); p.s.a = v; p.s.b = u; }',
  ),
  'a read of an array not passing a native': sample(
    'function frame(p, x) { const u = p.io.a[0]; p.io.see(u); p.io.a[0] = x; const v = p.io.a[0]; p.io.n(v); p.s.a = v - u; }',
  ),
};
