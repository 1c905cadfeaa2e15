/**
 * Turns functions of the source into a flat program for one set of known arguments: see DEVELOPERS.md, "The board's
 * program".
 */
import { Evaluator } from './evaluate.ts';
import { type Expression, partsOf, type Variable } from './expression.ts';
import { exactLiteral, isPlain } from './literals.ts';
import { shortNames } from './names.ts';
import { literalText, type Piece, printBlock } from './print.ts';
import type { Routine } from './routine.ts';
import type { Source } from './source.ts';
import {
  blocksOf,
  eachExpression,
  eachStatement,
  expressionsOf,
  mapExpressions,
  type Statement,
} from './statement.ts';
import { compact, simplify } from './tidy/tidy.ts';
import { Native, Slot, type Tree } from './tree.ts';

/** A function of the source that the program is to have. */
export interface Request {
  name: string;
  /** What is known of each parameter; a parameter without entry is handed over at run time. */
  known: readonly (Tree | undefined)[];
  /** Runs in every frame: its temporaries live in the program's own scope, the shortest names are its. */
  isHot: boolean;
}

export interface PrintedRoutine {
  /** Name in the source. */
  name: string;
  /** Name in the program. */
  shortName: string;
  /** `function f(){...}`, in pieces. */
  pieces: Piece[];
}

export interface Specialised {
  /** `var` with all names that routines share, hottest first. */
  declarations: string;
  /** Statements that give natives their values. */
  initialisers: string;
  /** The requested routines, in order, each after the kept functions that it calls. */
  routines: PrintedRoutine[];
  /** Name in the program of each slot that it has, by the slot's hint. */
  slots: { [hint: string]: string };
  /** All names of the program's own scope. */
  names: string[];
  /** Name of a slot or native in the program; undefined if nothing uses it. */
  nameOf: (leaf: Slot | Native) => string | undefined;
}

/**
 * @param kept functions that are called, not inlined: what seldom runs
 * @param natives all natives of the tree, in the order in which they are made
 * @param alwaysUsed natives that other code of the program needs
 * @throws SpecialiseError with the place in the source
 */
export function specialise(
  source: Source,
  requests: readonly Request[],
  kept: ReadonlySet<string>,
  natives: readonly Native[],
  alwaysUsed: readonly Native[] = [],
): Specialised {
  const hot = new Set(requests.filter((r) => r.isHot).map((r) => r.name));
  const isHot = (one: Settled) => one.isRequested && hot.has(one.routine.name);
  const numbers = new Map<number, Variable>();
  const routines = settle(source, requests, kept).map((one) =>
    isHot(one) ? { ...one, routine: { ...one.routine, body: nameNumbers(one.routine.body, numbers) } } : one,
  );
  const used = usedNatives(routines, natives, alwaysUsed);
  const globals = byHeat(routines, hot, used);
  const names = new Map<Variable, string>();
  const next = shortNames('');
  for (const v of globals) names.set(v, next.next().value);
  for (const { routine } of routines) names.set(routine.variable, next.next().value);
  const slots = new Map<Variable, Slot>();
  for (const request of requests) collectSlots(request.known, slots, new Set());

  const numberOf = new Map([...numbers].map(([value, v]) => [v, value]));
  const declared = globals.map((v) => {
    const number = numberOf.get(v);
    if (number !== undefined) return `${names.get(v)!}=${exactLiteral(number)}`;
    const slot = slots.get(v);
    const name = names.get(v)!;
    return slot ? `${name}=${literalText(slot.initial)}` : name;
  });
  return {
    declarations: declared.length > 0 ? `var ${declared.join(',')};` : '',
    initialisers: used.map((n) => `${names.get(n.variable)}=${nativeText(n, used, names)};`).join(''),
    routines: routines.map(({ routine, isRequested }) =>
      printRoutine(routine, names, isRequested && hot.has(routine.name)),
    ),
    slots: Object.fromEntries(globals.filter((v) => slots.has(v)).map((v) => [v.hint, names.get(v)!])),
    names: [...names.values()],
    nameOf: (leaf) => names.get(leaf.variable),
  };
}

/** Numbers that take long to read get a name: worked out once instead of in every frame. */
function nameNumbers(body: Statement[], names: Map<number, Variable>): Statement[] {
  return mapExpressions(body, (e) => {
    if (e.kind !== 'literal' || typeof e.value !== 'number' || isPlain(e.value)) return e;
    let variable = names.get(e.value);
    if (!variable) {
      variable = { kind: 'fixed', hint: String(e.value) };
      names.set(e.value, variable);
    }
    return { kind: 'variable', variable };
  });
}

/** Share of the frames that go through a branch, as far as the order of names is concerned. Assumed. */
const BEHIND_TEST = 0.8;

interface Settled {
  routine: Routine;
  isRequested: boolean;
}

/** Evaluates and simplifies until no more slot turns out to be fixed. */
function settle(source: Source, requests: readonly Request[], kept: ReadonlySet<string>): Settled[] {
  const slots = new Map<Variable, Slot>();
  for (const request of requests) collectSlots(request.known, slots, new Set());
  // the same tree may have served another program
  for (const slot of slots.values()) slot.isFixed = false;
  for (;;) {
    const evaluator = new Evaluator(source, kept);
    const requested = requests.map((r) =>
      evaluator.routine(
        r.name,
        r.known,
        r.known.map((_, i) => i in r.known),
      ),
    );
    const all = [
      ...evaluator.keptRoutines().map((routine) => ({ routine, isRequested: false })),
      ...requested.map((routine) => ({ routine, isRequested: true })),
    ];
    const simple = simplifyAll(all);
    const written = new Set<Variable>();
    for (const { routine } of simple) {
      eachStatement(routine.body, (s) => {
        if (s.kind === 'assign') written.add(s.variable);
      });
    }
    const still = [...slots.values()].filter((slot) => !slot.isFixed && !written.has(slot.variable));
    if (still.length === 0) {
      const isRead = readers(simple);
      return simple.map((one) => ({
        ...one,
        routine: { ...one.routine, body: compact(one.routine.body, isRead) },
      }));
    }
    for (const slot of still) slot.isFixed = true;
  }
}

/** Dropping the last reader of a state makes its writers needless: repeated until nothing changes. */
function simplifyAll(all: Settled[]): Settled[] {
  let current = all;
  let before = -1;
  for (;;) {
    const isRead = readers(current);
    current = current.map((one) => ({
      ...one,
      routine: { ...one.routine, body: simplify(one.routine.body, isRead) },
    }));
    let size = 0;
    for (const { routine } of current) eachStatement(routine.body, () => size++);
    if (size === before) return current;
    before = size;
  }
}

function readers(all: Settled[]): (v: Variable) => boolean {
  const read = new Set<Variable>();
  for (const { routine } of all) {
    eachExpression(routine.body, (e) => {
      if (e.kind === 'variable') read.add(e.variable);
    });
  }
  return (v) => read.has(v);
}

function collectSlots(
  tree: Tree | readonly (Tree | undefined)[],
  slots: Map<Variable, Slot>,
  seen: Set<unknown>,
): void {
  if (tree instanceof Slot) slots.set(tree.variable, tree);
  if (typeof tree !== 'object' || tree === null || tree instanceof Slot || tree instanceof Native) return;
  if (seen.has(tree)) return;
  seen.add(tree);
  for (const part of Object.values(tree)) collectSlots(part, slots, seen);
}

/** Natives that a routine or another used native needs, in the order given. */
function usedNatives(
  routines: readonly Settled[],
  natives: readonly Native[],
  alwaysUsed: readonly Native[],
): Native[] {
  const variables = new Set<Variable>(alwaysUsed.map((n) => n.variable));
  for (const { routine } of routines) {
    eachExpression(routine.body, (e) => {
      if (e.kind === 'variable') variables.add(e.variable);
    });
  }
  const used = new Set<Native>(natives.filter((n) => variables.has(n.variable)));
  for (let size = -1; size !== used.size; ) {
    size = used.size;
    for (const n of used) for (const other of natives) if (mentions(n.text, other.name)) used.add(other);
  }
  return natives.filter((n) => used.has(n));
}

function mentions(text: string, name: string): boolean {
  return [...text.matchAll(/#(\w+)/g)].some((match) => match[1] === name);
}

function nativeText(native: Native, used: readonly Native[], names: Map<Variable, string>): string {
  return native.text.replace(/#(\w+)/g, (_, name: string) => {
    const other = used.find((n) => n.name === name);
    if (!other) throw new Error(`native ${native.name} needs ${name}, which is not there`);
    return names.get(other.variable)!;
  });
}

/** Names of the program's own scope, the most used first: each one ahead of another costs it time at every look-up. */
function byHeat(routines: readonly Settled[], hot: ReadonlySet<string>, used: readonly Native[]): Variable[] {
  const heat = new Map<Variable, number>();
  const add = (v: Variable, by: number) => heat.set(v, (heat.get(v) ?? 0) + by);
  const functions = new Set(routines.map(({ routine }) => routine.variable));
  for (const { routine, isRequested } of routines) {
    const isHot = isRequested && hot.has(routine.name);
    const isGlobal = (v: Variable) =>
      v.kind === 'state' || (v.kind === 'fixed' && !functions.has(v)) || (isHot && v.kind === 'temporary');
    const meet = (v: Variable, weight: number) => {
      if (isGlobal(v)) add(v, weight);
    };
    const inExpression = (e: Expression, weight: number): void => {
      if (e.kind === 'variable' || e.kind === 'assign') meet(e.variable, weight);
      for (const part of partsOf(e)) inExpression(part, weight);
    };
    const inBlock = (block: readonly Statement[], weight: number): void => {
      for (const s of block) {
        for (const e of expressionsOf(s)) inExpression(e, weight);
        if (s.kind === 'assign') meet(s.variable, weight);
        // What stands behind a test is not needed in every frame.
        for (const inner of blocksOf(s)) inBlock(inner, s.kind === 'if' ? weight * BEHIND_TEST : weight);
      }
    };
    inBlock(routine.body, isHot ? 1000 : 1);
  }
  for (const n of used) add(n.variable, 0);
  return [...heat.keys()].sort((a, b) => heat.get(b)! - heat.get(a)!);
}

function printRoutine(routine: Routine, globals: Map<Variable, string>, isHot: boolean): PrintedRoutine {
  const names = new Map(globals);
  const next = shortNames('$');
  for (const v of routine.parameters) names.set(v, next.next().value);
  const locals: string[] = [];
  if (!isHot) {
    eachLocal(routine.body, (v) => {
      if (names.has(v)) return;
      const name = next.next().value;
      names.set(v, name);
      locals.push(name);
    });
  }
  const shortName = names.get(routine.variable)!;
  const nameOf = (v: Variable): string => {
    const name = names.get(v);
    if (name === undefined) throw new Error(`${v.kind} ${v.hint} of ${routine.name} has no name`);
    return name;
  };
  const head = `function ${shortName}(${routine.parameters.map(nameOf).join(',')}){`;
  const variables = locals.length > 0 ? `var ${locals.join(',')};` : '';
  return {
    name: routine.name,
    shortName,
    pieces: [
      { text: head + variables, origin: undefined },
      ...printBlock(routine.body, nameOf),
      { text: '}', origin: undefined },
    ],
  };
}

function eachLocal(body: Statement[], visit: (v: Variable) => void): void {
  eachExpression(body, (e) => {
    if ((e.kind === 'variable' || e.kind === 'assign') && e.variable.kind === 'temporary') visit(e.variable);
  });
  eachStatement(body, (s) => {
    if (s.kind === 'assign' && s.variable.kind === 'temporary') visit(s.variable);
  });
}
