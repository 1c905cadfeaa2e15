/** Intermediate form of a specialised function: statements. */
import { type Expression, partsOf, type Variable, withParts } from './expression.ts';

/** Place in the source that a statement comes from. */
export interface Origin {
  /** Function that it was written in. */
  stage: string;
  /** Offset in the parsed text. */
  offset: number;
}

export type Statement =
  | { kind: 'assign'; variable: Variable; value: Expression; origin: Origin }
  /** Write of one element of an array. */
  | { kind: 'store'; object: Expression; index: Expression; value: Expression; origin: Origin }
  | { kind: 'do'; value: Expression; origin: Origin }
  | { kind: 'if'; test: Expression; yes: Statement[]; no: Statement[]; origin: Origin }
  | { kind: 'try'; body: Statement[]; handler: Statement[]; origin: Origin }
  | { kind: 'return'; value: Expression; origin: Origin };

/** The expressions of a statement, without those of statements inside it, in order of evaluation. */
export function expressionsOf(s: Statement): Expression[] {
  switch (s.kind) {
    case 'assign':
    case 'do':
    case 'return':
      return [s.value];
    case 'store':
      return [s.object, s.index, s.value];
    case 'if':
      return [s.test];
    case 'try':
      return [];
  }
}

/** The same statement with its own expressions replaced. */
export function withExpressions(s: Statement, replace: (e: Expression) => Expression): Statement {
  switch (s.kind) {
    case 'assign':
    case 'do':
    case 'return':
      return { ...s, value: replace(s.value) };
    case 'store':
      return { ...s, object: replace(s.object), index: replace(s.index), value: replace(s.value) };
    case 'if':
      return { ...s, test: replace(s.test) };
    case 'try':
      return s;
  }
}

/** The blocks inside a statement. */
export function blocksOf(s: Statement): Statement[][] {
  return s.kind === 'if' ? [s.yes, s.no] : s.kind === 'try' ? [s.body, s.handler] : [];
}

/** The same statement with the blocks inside it replaced. */
export function withBlocks(s: Statement, replace: (block: Statement[]) => Statement[]): Statement {
  if (s.kind === 'if') return { ...s, yes: replace(s.yes), no: replace(s.no) };
  if (s.kind === 'try') return { ...s, body: replace(s.body), handler: replace(s.handler) };
  return s;
}

/** Replaces expressions everywhere, from the inside out. */
export function mapExpressions(block: Statement[], replace: (e: Expression) => Expression): Statement[] {
  const deep = (e: Expression): Expression => replace(withParts(e, deep));
  return block.map((s) => withBlocks(withExpressions(s, deep), (inner) => mapExpressions(inner, replace)));
}

/** Calls `visit` for every expression of a block, outer ones first. */
export function eachExpression(block: Statement[], visit: (e: Expression) => void): void {
  const deep = (e: Expression): void => {
    visit(e);
    partsOf(e).forEach(deep);
  };
  for (const s of block) {
    expressionsOf(s).forEach(deep);
    for (const inner of blocksOf(s)) eachExpression(inner, visit);
  }
}

/** Calls `visit` for every statement of a block, outer ones first. */
export function eachStatement(block: Statement[], visit: (s: Statement) => void): void {
  for (const s of block) {
    visit(s);
    for (const inner of blocksOf(s)) eachStatement(inner, visit);
  }
}
