/** Small programs, each with one thing in it that a careless rewriting gets wrong. Grouped by what they try. */
import { NEXT, sample } from './case-parts.ts';
import { ALIASING, ORDER } from './order-cases.ts';
import type { Sample } from './sample.ts';

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
  'a zero that turns out known only later': sample(
    'function f(s, v) { s.c = v; return v * 3; } function frame(p, x) { for (let i = 0; i < 2; i++) { let v = i; p.s.a = -v; p.s.b = v * -1; p.io.see(f(p.s, -v)); } }',
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
