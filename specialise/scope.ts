/** Names of the source and what they stand for while a function is evaluated. */
import type { Expression, Variable } from './expression.ts';
import { Native, Slot, type Tree } from './tree.ts';

/** A value: something known as a whole, or an expression that the program has to work out. */
export type Value = { kind: 'tree'; tree: Tree } | { kind: 'expression'; expression: Expression };

export type Binding =
  | { kind: 'value'; value: Value }
  /** A `let`, which the program may assign. */
  | { kind: 'variable'; variable: Variable }
  /** What a handler catches. */
  | { kind: 'unknown' };

export class Scope {
  private readonly names = new Map<string, Binding>();
  private readonly outer: Scope | undefined;
  constructor(outer?: Scope) {
    this.outer = outer;
  }
  set(name: string, binding: Binding): void {
    this.names.set(name, binding);
  }
  get(name: string): Binding | undefined {
    return this.names.get(name) ?? this.outer?.get(name);
  }
}

/** A tree as a value: slots, natives and single literals become expressions. */
export function treeValue(tree: Tree): Value {
  if (tree instanceof Slot && tree.isFixed) return treeValue(tree.initial);
  if (tree instanceof Slot || tree instanceof Native) {
    return { kind: 'expression', expression: { kind: 'variable', variable: tree.variable } };
  }
  if (typeof tree === 'object' && tree !== null) return { kind: 'tree', tree };
  return { kind: 'expression', expression: { kind: 'literal', value: tree } };
}

export function expressionValue(expression: Expression): Value {
  return { kind: 'expression', expression };
}
