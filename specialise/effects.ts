/** What evaluating something reads and changes: whether two things may change places. */
import { type Expression, partsOf, type Variable } from './expression.ts';
import { blocksOf, expressionsOf, type Statement } from './statement.ts';

export interface Effects {
  reads: Set<Variable>;
  writes: Set<Variable>;
  /** Reads arrays or properties, or calls something that may. */
  looks: boolean;
  /** Changes an array, or calls something that may. */
  touches: boolean;
}

export function noEffects(): Effects {
  return { reads: new Set(), writes: new Set(), looks: false, touches: false };
}

/** Adds the effects of `more` to `all`. */
export function addEffects(all: Effects, more: Effects): void {
  for (const v of more.reads) all.reads.add(v);
  for (const v of more.writes) all.writes.add(v);
  all.looks ||= more.looks;
  all.touches ||= more.touches;
}

/** The effects of the node itself, without those of its parts. */
export function ownEffects(e: Expression): Effects {
  const own = noEffects();
  if (e.kind === 'variable' && e.variable.kind !== 'fixed') own.reads.add(e.variable);
  if (e.kind === 'element' || e.kind === 'property') own.looks = true;
  if (e.kind === 'assign') own.writes.add(e.variable);
  if (e.kind === 'call' && !e.pure) {
    if (e.effects) addEffects(own, e.effects);
    else own.looks = own.touches = true;
  }
  return own;
}

const known = new WeakMap<Expression, Effects>();

/** Effects of an expression with all its parts. Kept, as expressions never change: not to be changed by the caller. */
export function effectsOf(e: Expression): Effects {
  let all = known.get(e);
  if (!all) {
    all = ownEffects(e);
    for (const part of partsOf(e)) addEffects(all, effectsOf(part));
    known.set(e, all);
  }
  return all;
}

/** Effects of a whole block, all its branches taken together. */
export function effectsOfBlock(block: Statement[]): Effects {
  const all = noEffects();
  for (const s of block) {
    for (const e of expressionsOf(s)) addEffects(all, effectsOf(e));
    addEffects(all, statementEffects(s));
    for (const inner of blocksOf(s)) addEffects(all, effectsOfBlock(inner));
  }
  return all;
}

/** What the statement itself changes, apart from its expressions and blocks. */
export function statementEffects(s: Statement): Effects {
  const own = noEffects();
  if (s.kind === 'assign') own.writes.add(s.variable);
  if (s.kind === 'store') own.touches = true;
  return own;
}

function meet(a: Set<Variable>, b: Set<Variable>): boolean {
  for (const v of a) if (b.has(v)) return true;
  return false;
}

function remembers(written: Set<Variable>): boolean {
  for (const v of written) if (v.kind === 'state') return true;
  return false;
}

/** Whether the outcome can differ when `moved` is evaluated after `passed` instead of before it. */
export function conflict(moved: Effects, passed: Effects): boolean {
  return (
    meet(moved.reads, passed.writes) ||
    meet(moved.writes, passed.reads) ||
    meet(moved.writes, passed.writes) ||
    (moved.looks && passed.touches) ||
    (moved.touches && (passed.touches || passed.looks)) ||
    // a call may throw: what is remembered must then stand as it stood
    (moved.touches && remembers(passed.writes)) ||
    (passed.touches && remembers(moved.writes))
  );
}

/**
 * Whether interpreters before 2v25 look the value up late: as the left side of an operator they work out the right
 * side first (espruino/Espruino#2547). So nothing to its right may change it.
 */
export function isName(e: Expression): boolean {
  if (e.kind === 'logical') return isName(e.left) || isName(e.right);
  if (e.kind === 'conditional') return isName(e.yes) || isName(e.no);
  return e.kind === 'variable' || e.kind === 'element' || e.kind === 'property';
}
