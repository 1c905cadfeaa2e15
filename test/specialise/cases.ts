/** Small programs, each with one thing in it that a careless rewriting gets wrong. Grouped by what they try. */
import type { Sample } from './sample.ts';

const S = { a: 1.25, b: -0.5, c: 3 };
const T = { a: 10, b: 20.5, c: -4 };

function sample(source: string, more: Partial<Sample> = {}): Sample {
  return { source, s: S, t: T, ...more };
}

/** A function that changes `s.a` and gives something back, inlined or kept. */
const SET_A = 'function setA(s, v) { s.a = v; return v + 1; }';
const SET_A_KEPT: Partial<Sample> = { kept: ['setA'] };
const NEXT = 'function next(s) { s.a = s.a * 2 + 1; return s.a; }';

const ALIASING: Record<string, Sample> = {
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

const ORDER: Record<string, Sample> = {
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

const BRANCHES: Record<string, Sample> = {
  'early returns': sample(`
    function clip(v, limit) { if (v > limit) return limit; if (v < -limit) return -limit; return v; }
    function frame(p, x, y) { p.s.a = clip(x, 2); p.s.b = clip(y, 1) + clip(p.s.b, 0.25); return clip(p.s.a, 0.5); }`),
  'an early return that skips a write': sample(`
    function step(s, x) { if (x < 0) return false; s.a = s.a + x; if (s.a > 5) { s.a = 0; return true; } s.b = x; return false; }
    function frame(p, x) { if (step(p.s, x)) p.io.see(p.s.a); if (!step(p.t, x)) p.io.n(1); }`),
  'a function that returns something only sometimes': sample(`
    function maybe(x) { if (x > 0) return x + 1; }
    function frame(p, x) { const v = maybe(x); p.io.see(v === undefined, v); return v; }`),
  'an empty return beside a full one': sample(`
    function maybe(p, x) { if (x > 3) return 7; if (x > 0) { p.io.see(x); return; } p.s.b = x; return 1; }
    function frame(p, x) { p.io.see(maybe(p, x)); p.io.see(maybe(p, x + 1)); }`),
  'a value that one branch alone gives': sample(`
    function maybe(s, x) { if (x > 1) return s.a; }
    function frame(p, x) { const v = maybe(p.s, x); p.s.a = x; p.io.see(v); }`),
  'the return of the frame itself': sample(
    'function frame(p, x) { if (x > 1) return x; p.s.a = x; if (x < -0.5) return; p.s.b = x; }',
  ),
  'a test that is only sometimes known': sample(
    'function frame(p, x) { if (p.k.on) { if (p.k.level > 2) p.s.a = x; else p.s.a = -x; } else p.s.b = x; }',
    { k: { on: true, level: 1 } },
  ),
  'tests in tests': sample(`
    function kind(x, y) { if (x > 0) { if (y > 0) return 1; return 2; } else if (y > 0) return 3; return 4; }
    function frame(p, x, y) { p.io.a[0] = kind(x, y); p.s.a = kind(y, x) * 2; if (kind(x, x) > 2) p.s.b = 1; }`),
  'truth handed through a function': sample(`
    function isHigh(s, x) { if (x > s.a) return true; if (x < s.b) return true; return false; }
    function frame(p, x) { if (isHigh(p.s, x)) p.s.c = x; else p.s.c = p.s.c + 1; if (!isHigh(p.t, x)) p.io.n(x); }`),
  'a handed truth whose reader is not the only one': sample(`
    function isHigh(s, x) { if (x > s.a) { s.b = 1; return true; } return false; }
    function frame(p, x) { const high = isHigh(p.s, x); if (high) p.s.c = x; return high; }`),
  'one branch empty': sample(
    'function frame(p, x) { if (x > 0) {} else p.s.a = x; if (!(x > 1)) {} else p.s.b = x; }',
  ),
  'a condition of nothing but a call': sample(
    'function frame(p, x) { if (p.io.n(x) > 0) {} if (p.io.m(x)) { const u = 1; } }',
  ),
  'a choice between a value and the same state': sample(
    'function frame(p, x) { p.s.a = x > 0 ? x : p.s.a; p.s.b = x > 0 ? p.s.b : x; p.s.c = x > 0 ? (x > 1 ? 2 : p.s.c) : p.s.c; }',
  ),
  'a choice with effects and the same state': sample(
    'function frame(p, x) { p.s.a = p.io.n(x) > 0 ? p.io.m(1) : p.s.a; p.s.b = p.io.n(x) > 0 ? p.s.b : p.io.m(2); }',
  ),
  'a let assigned in branches': sample(`
    function frame(p, x, y) {
      let v = 1; let w = x;
      if (x > 0) { v = p.s.a; w = v + y; } else if (y > 1) v = w - p.s.b;
      p.s.a = v; p.s.b = w; return v * 10 + w;
    }`),
  'two of three ends': sample(`
    function pick(s, x) { let v = s.a; if (x > 1) v = x; else if (x < 0) v = -x; return v; }
    function frame(p, x, y) { p.s.a = pick(p.s, x); p.io.a[2] = pick(p.t, y); p.s.b = pick(p.s, y) + 1; }`),
  'a chosen value with a store behind': sample(`
    function pick(io, x) { if (x > 0) { io.a[0] = x; return io.a[0] + 1; } return io.a[0]; }
    function frame(p, x) { p.io.a[1] = pick(p.io, x); p.io.a[p.s.a & 1] = pick(p.io, -x); }`),
  'a chosen value with an index that the choice changes': sample(
    `${NEXT} function pick(s, x) { if (x > 0) return next(s); return 2; }
    function frame(p, x) { const v = pick(p.s, x); p.io.a[p.s.a & 3] = v; }`,
    { kept: ['next'] },
  ),
  'and and or of small functions': sample(`
    function isHigh(v) { return v > 1; }
    function frame(p, x, y) {
      p.s.c = isHigh(x) || isHigh(y); p.t.a = isHigh(x) && isHigh(y);
      p.s.c = isHigh(x) || isHigh(p.s.a);
      if (isHigh(x) || isHigh(p.s.a)) p.s.a = y; if (isHigh(y) && isHigh(p.s.b)) p.s.b = x;
    }`),
  'a chosen number that is tested': sample(`
    function pick(s, x) { if (x > 0) return s.a; return s.b - x; }
    function frame(p, x) { if (pick(p.s, x)) p.s.a = p.s.a - 1.25; else p.s.b = x; }`),
  'a chosen index': sample(`
    function pick(x) { if (x > 0) return 1; return 2; }
    function frame(p, x) { p.io.a[pick(x)] = p.io.a[pick(-x)] + p.io.n(x); }`),
};

const NANS: Record<string, Sample> = {
  'not greater is not less or equal': sample(
    'function frame(p, x) { if (!(x > 1)) p.s.a = x; if (!(x <= 1)) p.s.b = 2; return !(x >= 0) && !(x < 0); }',
  ),
  'false and true as a choice': sample(
    'function frame(p, x) { p.s.a = (x < 1 ? false : true) ? 1 : 2; if (x > 1 ? false : true) p.s.b = p.s.b + 1; }',
  ),
  'a comparison with itself': sample(
    'function frame(p, x) { if (x === x) p.s.a = x; else p.s.a = 0; return x !== x; }',
  ),
  'an early return on a comparison': sample(`
    function band(v, x) { if (x > v + 1) return 1; if (x < v - 1) return -1; return 0; }
    function frame(p, x, y) { p.s.a = band(p.s.b, x); p.s.b = band(y, x); }`),
  'adding zero': sample(
    'function frame(p, x) { p.s.a = x + 0; p.s.b = x - 0; p.s.c = x * 1 + 0 * x; return 0 - x; }',
  ),
  'minus and not': sample('function frame(p, x) { p.s.a = -(-x) - -x; p.s.b = +x + +p.s.b; return !x; }'),
  'known numbers': sample(
    'const C = 0.1 + 0.2; const D = -C / 3; function frame(p, x) { p.s.a = C * p.k.third + D; p.s.b = p.k.nan > 1 ? x : p.k.inf; p.io.see(p.k.minus, C, 0 / 0, -1 / 0, 5 % 3, -7 >> 1, -7 >>> 28, 6 & 3); }',
    { k: { third: 1 / 3, nan: Number.NaN, inf: Number.NEGATIVE_INFINITY, minus: -0 } },
  ),
  'bits tested against zero': sample(
    'function frame(p, x) { if (((x * 4) & 1) !== 0) p.s.a = x; if ((x | 0) === 0) p.s.b = x; return (x >> 1) !== 0 ? 3 : 4; }',
  ),
  'a number tested against zero': sample(
    'function frame(p, x) { if (x !== 0) p.s.a = 1; else p.s.a = 2; return x - 1 !== 0; }',
  ),
};

const MEMORY: Record<string, Sample> = {
  'a count over the calls': sample(
    'function frame(p, x) { p.s.a += 1; if (p.s.a > 4) p.s.a = 0; return p.s.a; }',
  ),
  'truth values remembered': sample(
    'function frame(p, x) { if (p.s.on) p.s.a = x; p.s.on = x > 0; return p.s.on; }',
    { s: { a: 1, on: true } },
  ),
  'state that assigns itself': sample(
    'function keep(v) { return v; } function frame(p, x) { p.s.a = p.s.a; p.s.b = keep(p.s.b); p.s.c = x; p.s.c = p.s.c; }',
  ),
  'state overwritten at once': sample(
    'function frame(p, x) { p.s.a = x; p.s.a = x + 1; p.s.b = p.io.n(x); p.s.b = p.s.b + 1; p.s.c = p.io.n(x); p.s.c = 2; }',
  ),
  'state read by another function alone': sample(
    'function frame(p, x) { p.s.a = x; } function rest(p) { p.io.see(p.s.a); }',
    { isBlind: true },
  ),
  'state read by a kept function alone': sample(
    'function show(p) { p.io.see(p.s.a); } function frame(p, x) { p.s.a = x; if (x > 0) show(p); p.s.a = x + 1; }',
    { isBlind: true, kept: ['show'] },
  ),
  'state read only for itself': sample('function frame(p, x) { p.s.a = p.s.a + x; p.io.see(x); }', {
    isBlind: true,
  }),
  'state written by another function alone': sample(
    'function frame(p, x) { p.s.b = p.s.a + x; return p.s.b; } function rest(p) { p.s.a = p.s.a * 2; }',
    { isBlind: true },
  ),
  'state that nothing writes': sample('function frame(p, x) { return p.s.a + p.s.b * x; }', {
    isBlind: true,
  }),
  'state that only a dropped branch writes': sample(
    'function frame(p, x) { if (p.k.on) p.s.a = x; return p.s.a * x; }',
    { isBlind: true, k: { on: false } },
  ),
  'state whose only use is a test that falls away': sample(
    'function frame(p, x) { if (p.s.a > 0) { const u = x; } p.s.a = x; return x; }',
    { isBlind: true },
  ),
};

const TEMPORARIES: Record<string, Sample> = {
  'many at a time': sample(`
    function mix(u, v) { const a = u + 1; const b = v * 2; const c = a * b; const d = a - b; return c * d + a * b - c; }
    function frame(p, x, y) { const u = mix(x, y); const v = mix(y, x); p.s.a = u - v; p.s.b = mix(u, v) * u + v; return u + v; }`),
  'needed again behind a branch': sample(`
    function frame(p, x, y) {
      const u = p.io.n(x); if (x > 0) { const w = p.io.m(u); p.s.a = w * w + u; } else { const z = u * u; p.s.b = z + z; }
      const v = p.io.n(y); p.s.c = u * v + u; return v * v;
    }`),
  'one that another begins with': sample(
    'function frame(p, x) { const u = p.io.n(x); const v = u * u + u; const w = v * v - v; p.s.a = w * w; p.s.b = v; return w; }',
  ),
  'a copy in one branch': sample(`
    function limited(e, k) { if (e * e > 4) return e > 0 ? 2 : -2; return e; }
    function frame(p, x) { const e = p.io.n(x) - p.s.a; const l = limited(e, 1); p.s.a = p.s.a + l * l; p.s.b = e; return l + e; }`),
  'a copy in one branch, origin unused': sample(`
    function limited(e) { if (e * e > 4) return e > 0 ? 2 : -2; return e; }
    function frame(p, x) { const e = p.io.n(x) - p.s.a; const l = limited(e); p.s.a = p.s.a + l * l; return l; }`),
  'copies both ways': sample(`
    function frame(p, x, y) { let u = p.io.n(x); let v = p.io.n(y); if (x > 0) { const w = u; u = v; v = w; } p.s.a = u * u; p.s.b = v * v; p.s.c = u - v; }`),
  'a let that begins undefined': sample('function frame(p, x) { let v; if (x > 0) v = x; p.io.see(v); }'),
  'a merge into the first read': sample(`
    function frame(p, x) { p.s.a = x * 2; p.s.b = p.s.a * p.s.a + p.s.b; p.s.c = p.s.c + p.s.b; p.s.c = p.s.c + 1; return p.s.c; }`),
  'a merge behind another read': sample(
    'function frame(p, x) { p.s.a = p.io.n(x); p.s.b = p.s.b + p.s.a; p.s.c = p.io.a[0] * p.s.a; p.io.a[1] = p.io.n(2) + p.s.a; }',
  ),
  'a merge into a test': sample(
    'function frame(p, x) { const e = p.io.n(x) - p.s.a; if (e * e > 1) { p.s.a = p.s.a + e / 2; p.io.a[0] = p.s.a * 3; } }',
  ),
  'a merge into a choice': sample(
    'function frame(p, x) { p.s.a = p.io.n(x); p.s.b = x > 0 ? p.s.a : 1; p.s.c = x; p.s.b = p.s.b && p.s.c; }',
  ),
  'a merge behind a name that is tested': sample(
    'function frame(p, x) { p.s.a = p.io.n(x); p.s.b = !p.io.a && p.s.a; }',
  ),
  'a merge before a kept write of the same': sample(
    `${NEXT} function frame(p, x) { p.s.a = x; p.s.b = p.s.a + next(p.s); return p.s.a; }`,
    { kept: ['next'] },
  ),
};

const LOOPS: Record<string, Sample> = {
  unrolled: sample(
    'function frame(p, x) { let sum = 0; for (let i = 0; i < 4; i++) { const v = p.io.a[i]; sum = sum + v * i; p.io.a[i] = x + i; } return sum; }',
  ),
  downwards: sample('function frame(p, x) { for (let i = 3; i >= 0; i--) p.io.see(i, p.io.a[i], x); }'),
  'with a step': sample(
    'function frame(p, x) { for (let i = 0; i < p.k.n; i += p.k.step) p.io.a[i] = i * x; }',
    {
      k: { n: 4, step: 3 },
    },
  ),
  'not at all': sample('function frame(p, x) { for (let i = 0; i < 0; i++) p.s.a = x; p.s.b = x; }'),
  'in a loop': sample(`
    function frame(p, x) { for (let i = 0; i < 2; i++) for (let j = i; j < 3; j++) { if (x > j) p.s.a = p.s.a + i * j; else p.s.b = p.io.n(j); } }`),
  'calling a function with early returns': sample(`
    function f(s, i, x) { if (x > i) return s.a; s.a = s.a + 1; return s.b; }
    function frame(p, x) { let sum = 0; for (let i = 0; i < 3; i++) sum += f(p.s, i, x); return sum; }`),
};

const CALLS: Record<string, Sample> = {
  'kept without state': sample(
    'function clip(v, l) { if (v > l) return l; return v < -l ? -l : v; } function frame(p, x, y) { p.s.a = clip(x, 2) + clip(y, p.s.b); return clip(p.s.a, 1); }',
    { kept: ['clip'] },
  ),
  'kept with state': sample(
    'function step(s, x) { if (x > s.a) { s.a = x; return true; } s.b = s.b + 1; return false; } function frame(p, x, y) { if (step(p.s, x)) p.io.see(1); if (step(p.t, y)) p.io.see(2); step(p.s, y); }',
    { kept: ['step'] },
  ),
  'kept with natives': sample(
    'function send(p, v) { p.io.a[0] = v; p.io.see(p.io.n(v), p.s.a); } function frame(p, x, y) { p.s.a = x; send(p, y); p.s.a = y; if (x > y) send(p, x); }',
    { kept: ['send'] },
  ),
  'kept calling kept': sample(
    `${NEXT} function twice(s, x) { const a = next(s); return a * x + next(s); } function frame(p, x) { p.s.b = twice(p.s, x) - twice(p.s, 2); return next(p.t); }`,
    { kept: ['next', 'twice'] },
  ),
  'kept with temporaries of its own': sample(
    'function f(x) { let u = x + 1; if (x > 0) u = u * 2; const v = u * u; return v + u * v; } function frame(p, x, y) { const u = y * 2; const w = f(x); p.s.a = w * w + u * u; return u; }',
    { kept: ['f'] },
  ),
  'kept with the same object twice': sample(
    'function both(u, v, x) { u.a = v.a + x; v.b = u.a; return v.a; } function frame(p, x) { return both(p.s, p.s, x) + both(p.s, p.t, x) * both(p.t, p.s, x); }',
    { kept: ['both'] },
  ),
  'kept pure and used twice': sample(
    'function sq(x) { return x * x; } function frame(p, x) { const u = sq(x); p.s.a = u + sq(p.s.b); p.s.b = u; }',
    { kept: ['sq'] },
  ),
  'too few arguments': sample(
    'function f(u, v) { return v === undefined ? u : v; } function frame(p, x) { return f(x) + f(x, 2); }',
    { kept: ['f'] },
  ),
};

const THROWS: Record<string, Sample> = {
  'state at the time of a throw': sample(
    'function frame(p, x) { p.s.a = x; try { p.s.b = 1; p.s.c = p.io.boom(x); p.s.b = 2; } catch (e) { p.s.a = p.s.b; p.s.c = -1; } p.io.see(p.s.c); }',
  ),
  'a let at the time of a throw': sample(
    'function frame(p, x) { let v = 1; try { v = 2; v = p.io.boom(x); v = v + 3; } catch (e) { p.s.a = v; } return v; }',
  ),
  'a throw out of the frame': sample(
    'function frame(p, x, y) { p.s.a = 1; p.s.a = p.io.boom(x) + p.s.a; p.s.b = p.s.a; p.io.a[0] = p.io.boom(y); }',
  ),
  'a call not moved past what is remembered': sample(
    'function frame(p, x) { const v = p.io.boom(x); p.s.a = x; p.s.b = v; } function rest(p) { const u = p.s.c; p.s.c = 5; const w = p.io.boom(u); p.s.a = 9; p.io.see(w); }',
    { s: { a: 1, b: 2, c: 4 } },
  ),
  'a copy restored in the handler': sample(
    'function frame(p, x) { const old = p.s.a; try { p.s.a = x; p.io.boom(x); } catch (e) { p.s.a = old; } p.s.b = old; }',
  ),
  'try in a kept function': sample(
    'function careful(p, x) { try { p.s.a = p.io.boom(x); } catch (e) { p.s.b = p.s.b + 1; } } function frame(p, x, y) { careful(p, x); careful(p, y); }',
    { kept: ['careful'] },
  ),
  'a try without anything in it': sample(
    'function frame(p, x) { try { const u = x; } catch (e) { p.s.a = 1; } p.s.b = x; }',
  ),
};

export const GROUPS: Record<string, Record<string, Sample>> = {
  aliasing: ALIASING,
  'order of evaluation': ORDER,
  branches: BRANCHES,
  'comparisons and signs': NANS,
  'what is remembered': MEMORY,
  temporaries: TEMPORARIES,
  loops: LOOPS,
  calls: CALLS,
  throws: THROWS,
};

/** All cases by their names. */
export const CASES: Record<string, Sample> = Object.assign({}, ...Object.values(GROUPS));
