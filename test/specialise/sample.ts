/**
 * A small program in the source's style, run as it stands and as the specialiser prints it. Both runs see the same
 * calls of natives and the same elements; what they do to them, give back and remember is compared bit by bit.
 */
import { parse } from 'acorn';
import type { parseSource } from '../../specialise/source.ts';
import type { specialise } from '../../specialise/specialise.ts';
import { subsetProblems } from '../../specialise/subset.ts';
import type { Native, Slot, slotsOf, Tree } from '../../specialise/tree.ts';

/** The specialiser under test: the repository's, or a copy with a fault. */
export interface Tools {
  parseSource: typeof parseSource;
  specialise: typeof specialise;
  Slot: typeof Slot;
  Native: typeof Native;
  slotsOf: typeof slotsOf;
}

type Numbers = { [key: string]: number | boolean };

export interface Sample {
  /**
   * Functions; `frame(p, x, y)` is the entry, `rest(p)`, if there, a second one called after each frame.
   * `p` = `{ s, t, same, k, io }`: `s` and `t` remember, `same` is `s` again, `k` is known, `io` holds the natives
   * `n`, `m` (give a number and change `a[3]`), `boom` (throws above 2), `see` (gives nothing) and the array `a` of
   * four doubles.
   */
  source: string;
  s?: Numbers;
  t?: Numbers;
  k?: Numbers;
  kept?: string[];
  /** Arguments x and y of each call. */
  calls?: [number, number][];
  /** Nothing outside the frame reads what it remembers. */
  isBlind?: boolean;
}

export interface Made {
  /** The whole program; `host` holds the natives. */
  text: string;
  frame: string;
  rest: string | undefined;
  peek: string | undefined;
  nameOf: (key: string) => string | undefined;
}

const NATIVES = ['n', 'm', 'boom', 'see', 'a'];
/** What natives give: ordinary numbers and those that break careless rewriting. */
export const GIVEN = [
  1.5,
  -2,
  0.1,
  3,
  -0.7,
  1.25,
  2 ** 31,
  0,
  4.5,
  Number.NaN,
  1e-3,
  -0,
  7,
  Number.POSITIVE_INFINITY,
  2,
  -3,
];
export const CALLS: [number, number][] = [
  [1.5, 2],
  [-1, 0.25],
  [Number.NaN, 1],
  [0, -3],
  [4, Number.POSITIVE_INFINITY],
  [0.3, Number.NaN],
  [-0, 5],
  [2, 2],
];

const KNOWN = new Set(['host', 'undefined']);

function bits(value: unknown): string {
  if (typeof value !== 'number') return String(value);
  if (Number.isNaN(value)) return 'NaN';
  return Object.is(value, -0) ? '-0' : String(value);
}

interface Host {
  log: string[];
  natives: { [name: string]: unknown };
}

/** Natives that write down what is done to them. @param given what `n` and `m` give, in turn */
export function createHost(given: readonly number[] = GIVEN): Host {
  const log: string[] = [];
  let count = 0;
  const elements = new Float64Array([0.5, -1, 2, 3]);
  const next = (name: string) => (v: unknown) => {
    log.push(`${name}(${bits(v)})`);
    elements[3] = count + 0.25;
    return given[count++ % given.length];
  };
  const a = new Proxy(elements, {
    get: (target, key) => Reflect.get(target, key),
    set(target, key, value) {
      log.push(`a[${String(key)}]=${bits(value)}`);
      return Reflect.set(target, key, value);
    },
  });
  const boom = (v: number) => {
    log.push(`boom(${bits(v)})`);
    if (v > 2) throw new Error('boom');
    return v + 0.5;
  };
  const see = (...values: unknown[]) => {
    log.push(`see(${values.map(bits).join()})`);
  };
  return { log, natives: { n: next('n'), m: next('m'), boom, see, a } };
}

/** Adds a function that shows all that the sample remembers, if it is not to be blind. */
export function wholeSource(sample: Sample): string {
  if (sample.isBlind) return sample.source;
  const shown = (['s', 't'] as const).flatMap((o) =>
    Object.keys(sample[o] ?? {}).map((key) => `p.${o}.${key}`),
  );
  const lines = [...shown, 'p.io.a[0]', 'p.io.a[1]', 'p.io.a[2]', 'p.io.a[3]'].map((e) => `p.io.see(${e});`);
  return `${sample.source}\nfunction peek(p) { ${lines.join(' ')} }`;
}

export function hasRest(sample: Sample): boolean {
  return /\bfunction rest\b/.test(sample.source);
}

/** What the functions do as they stand. */
export function runPlain(sample: Sample, source = wholeSource(sample)): string[] {
  const names = ['frame', ...(hasRest(sample) ? ['rest'] : []), ...(sample.isBlind ? [] : ['peek'])];
  const functions = new Function(`'use strict';${source}\nreturn { ${names.join()} };`)();
  const host = createHost();
  const s = { ...sample.s };
  const p = { s, t: { ...sample.t }, same: s, k: { ...sample.k }, io: host.natives };
  return drive(sample, host.log, {
    frame: (x, y) => functions.frame(p, x, y),
    rest: () => functions.rest?.(p),
    peek: () => functions.peek?.(p),
  });
}

/** The tree that stands for `p`, with the slots by their names. */
export function treeOf(tools: Tools, sample: Sample) {
  const s = tools.slotsOf('s', sample.s ?? {});
  const t = tools.slotsOf('t', sample.t ?? {});
  const natives = NATIVES.map((name) => new tools.Native(name, `host.${name}`));
  const io = Object.fromEntries(natives.map((native) => [native.name, native]));
  const tree: Tree = { s, t, same: s, k: sample.k ?? {}, io };
  return { tree, natives, slots: { s, t } };
}

export function make(tools: Tools, sample: Sample): Made {
  const { tree, natives, slots } = treeOf(tools, sample);
  // biome-ignore lint/suspicious/noSparseArray: a missing entry is a parameter of the program
  const requests = [{ name: 'frame', known: [tree, ,], isHot: true }];
  if (hasRest(sample)) requests.push({ name: 'rest', known: [tree], isHot: false });
  if (!sample.isBlind) requests.push({ name: 'peek', known: [tree], isHot: false });
  const made = tools.specialise(
    tools.parseSource(wholeSource(sample)),
    requests,
    new Set(sample.kept ?? []),
    natives,
  );
  const short = (name: string) => made.routines.find((r) => r.name === name)?.shortName;
  const routines = made.routines.map((r) => r.pieces.map((piece) => piece.text).join('')).join('\n');
  return {
    text: `${made.declarations}${made.initialisers}${routines}`,
    frame: short('frame')!,
    rest: short('rest'),
    peek: short('peek'),
    nameOf(key) {
      const [object, field] = key.split('.') as ['s' | 't', string];
      return made.nameOf(slots[object][field]!);
    },
  };
}

/** What the program does. Names that it does not declare are errors. */
export function runMade(sample: Sample, made: Made): string[] {
  const host = createHost();
  const names = [`frame:${made.frame}`, `rest:${made.rest}`, `peek:${made.peek}`];
  const program = new Function('host', `'use strict';${made.text}\nreturn { ${names.join()} };`)(
    host.natives,
  );
  return drive(sample, host.log, {
    frame: (x, y) => program.frame(x, y),
    rest: () => program.rest?.(),
    peek: () => program.peek?.(),
  });
}

interface Driven {
  frame: (x: number, y: number) => unknown;
  rest: () => unknown;
  peek: () => unknown;
}

function drive(sample: Sample, log: string[], run: Driven): string[] {
  const attempt = (work: () => unknown) => {
    try {
      log.push(`gave ${bits(work())}`);
    } catch (error) {
      log.push(error instanceof Error && error.message === 'boom' ? 'threw' : `failed: ${error}`);
    }
  };
  for (const [x, y] of sample.calls ?? CALLS) {
    attempt(() => run.frame(x, y));
    attempt(run.rest);
    attempt(run.peek);
  }
  return log;
}

/** What is wrong with the program that comes of a sample; '' = nothing. Errors of the specialiser pass through. */
export function faultOf(tools: Tools, sample: Sample): string {
  const made = make(tools, sample);
  parse(made.text, { ecmaVersion: 5 });
  const problems = subsetProblems(made.text, KNOWN);
  if (problems.length > 0) return `${problems.map((one) => one.seen).join('; ')}\n${made.text}`;
  const plain = runPlain(sample);
  const actual = runMade(sample, made);
  const at = plain.findIndex((line, i) => line !== actual[i]);
  if (at < 0 && actual.length === plain.length) return '';
  const place = at < 0 ? plain.length : at;
  return `step ${place}: ${plain[place]} became ${actual[place]}\n${made.text}`;
}
