/**
 * The expressions of a function that is run with what is known: what follows from that is worked out, what is left
 * becomes an expression of the program.
 */
import type {
  AnyNode,
  CallExpression,
  ConditionalExpression,
  MemberExpression,
  Expression as Node,
} from 'acorn';
import { condition } from './condition.ts';
import { addEffects, conflict, type Effects, effectsOf, effectsOfBlock, isName } from './effects.ts';
import {
  type BinaryOperator,
  type Expression,
  literal,
  read,
  type UnaryOperator,
  type Variable,
} from './expression.ts';
import { foldExpression } from './fold.ts';
import { SpecialiseError } from './problem.ts';
import { expressionValue, type Scope, treeValue, type Value } from './scope.ts';
import type { Source } from './source.ts';
import type { Origin, Statement } from './statement.ts';
import type { Tree } from './tree.ts';

export const NOTHING: Value = expressionValue(literal(undefined));
export const BINARY = [
  '+',
  '-',
  '*',
  '/',
  '%',
  '<',
  '>',
  '<=',
  '>=',
  '===',
  '!==',
  '&',
  '|',
  '^',
  '<<',
  '>>',
  '>>>',
];

export abstract class ValueEvaluator {
  protected readonly source: Source;
  /** Statements that have to run before the expression at hand. */
  protected buffer: Statement[] = [];
  /** Function that is being evaluated. */
  protected stage = '';

  constructor(source: Source) {
    this.source = source;
  }

  /** A call of a function of the source. */
  protected abstract callFunction(name: string, nodes: Node[], node: CallExpression, scope: Scope): Value;

  protected capture(work: () => void): Statement[] {
    const before = this.buffer;
    const mine: Statement[] = [];
    this.buffer = mine;
    try {
      work();
    } finally {
      this.buffer = before;
    }
    return mine;
  }

  protected origin(node: AnyNode): Origin {
    return { stage: this.stage, offset: node.start };
  }

  protected refuse(node: AnyNode, seen: string, expected: string): never {
    throw new SpecialiseError(seen, expected, node.start);
  }

  /** A value that later changes of what it was read from do not reach. */
  protected held(value: Value, node: AnyNode): Value {
    if (value.kind === 'tree') return value;
    const e = value.expression;
    if (e.kind === 'literal') return value;
    if (e.kind === 'variable' && (e.variable.kind === 'fixed' || e.variable.kind === 'parameter'))
      return value;
    return expressionValue(read(this.temporary(e, node, hintOf(node))));
  }

  protected temporary(value: Expression, node: AnyNode, hint: string): Variable {
    const variable: Variable = { kind: 'temporary', hint };
    this.buffer.push({ kind: 'assign', variable, value, origin: this.origin(node) });
    return variable;
  }

  /** Evaluates parts one after the other; one that a later part's statements pass is kept in a temporary. */
  protected inOrder(parts: (() => Expression)[], node: AnyNode): Expression[] {
    const done: Expression[] = [];
    for (const part of parts) {
      const start = this.buffer.length;
      const next = part();
      const behind: Effects = effectsOfBlock(this.buffer.slice(start));
      // The part's own calls count too: interpreters before 2v25 look a name up only after the right side has run.
      const own = effectsOf(next);
      addEffects(behind, { ...own, looks: false, touches: false });
      const saved: Statement[] = [];
      for (let i = done.length - 1; i >= 0; i--) {
        const e = done[i]!;
        const effects = effectsOf(e);
        const isLate = own.touches && effects.looks && isName(e);
        if (!isLate && !conflict(effects, behind)) continue;
        // what is kept runs before the parts left of it that are not: they count against those too
        addEffects(behind, effects);
        const variable: Variable = { kind: 'temporary', hint: 'before' };
        saved.unshift({ kind: 'assign', variable, value: e, origin: this.origin(node) });
        done[i] = read(variable);
      }
      this.buffer.splice(start, 0, ...saved);
      done.push(next);
    }
    return done;
  }

  protected plain(value: Value, node: AnyNode): Expression {
    if (value.kind === 'tree') this.refuse(node, 'an object', 'a single value here');
    return value.expression;
  }

  protected value(node: Node | AnyNode, scope: Scope): Value {
    switch (node.type) {
      case 'Literal':
        if (node.value instanceof RegExp || typeof node.value === 'bigint') break;
        return expressionValue(literal(node.value as string | number | boolean | null));
      case 'Identifier':
        return this.identifier(node.name, node, scope);
      case 'MemberExpression':
        return this.memberValue(node, scope);
      case 'CallExpression':
        return this.call(node, scope);
      case 'ConditionalExpression':
        return this.conditional(node, scope);
      case 'UnaryExpression': {
        const operand = this.plain(this.value(node.argument, scope), node);
        return expressionValue(this.unary(node.operator as UnaryOperator, operand, node));
      }
      case 'BinaryExpression': {
        if (!BINARY.includes(node.operator)) break;
        const [left, right] = this.inOrder(
          [node.left, node.right].map((part) => () => this.plain(this.value(part, scope), part)),
          node,
        );
        return expressionValue(this.binary(node.operator as BinaryOperator, left!, right!));
      }
      case 'LogicalExpression':
        if (node.operator === '??') break;
        return this.logical(node.operator, node.left, node.right, scope);
    }
    return this.refuse(node, `a ${node.type}`, 'values, operators, fields and calls');
  }

  private identifier(name: string, node: AnyNode, scope: Scope): Value {
    const binding = scope.get(name);
    if (binding?.kind === 'variable') return expressionValue(read(binding.variable));
    if (binding?.kind === 'unknown')
      this.refuse(node, name, 'a handler that does not look at what was thrown');
    if (binding) return binding.value;
    if (this.source.constants.has(name)) return treeValue(this.source.constants.get(name));
    if (name === 'undefined') return NOTHING;
    if (name === 'NaN') return expressionValue(literal(Number.NaN));
    if (name === 'Infinity') return expressionValue(literal(Number.POSITIVE_INFINITY));
    return this.refuse(
      node,
      `the unknown name ${name}`,
      'a name of the source; natives come in as arguments',
    );
  }

  /** Field or element of a known object. */
  protected member(tree: Tree, node: MemberExpression, scope: Scope): Tree {
    let key: string;
    if (node.computed) {
      const index = this.plain(this.value(node.property as Node, scope), node);
      if (index.kind !== 'literal') {
        this.refuse(node, 'an index that is not known', 'a loop over all of them with a test');
      }
      key = String(index.value);
    } else key = (node.property as { name: string }).name;
    const object = tree as { readonly [key: string]: Tree };
    if (Array.isArray(tree) && key === 'length') return tree.length;
    if (!Object.hasOwn(object, key))
      this.refuse(node, `the field ${key}, which is not there`, Object.keys(object).join(', '));
    return object[key];
  }

  private memberValue(node: MemberExpression, scope: Scope): Value {
    const object = this.value(node.object, scope);
    if (object.kind === 'tree') return treeValue(this.member(object.tree, node, scope));
    if (!node.computed) {
      const name = (node.property as { name: string }).name;
      return expressionValue({ kind: 'property', object: object.expression, name });
    }
    const [array, index] = this.inOrder(
      [() => object.expression, () => this.plain(this.value(node.property as Node, scope), node)],
      node,
    );
    return expressionValue({ kind: 'element', object: array!, index: index! });
  }

  private unary(operator: UnaryOperator, operand: Expression, node: AnyNode): Expression {
    if (!['-', '+', '!', '~', 'typeof'].includes(operator)) this.refuse(node, operator, '-, !, ~ or typeof');
    return foldExpression({ kind: 'unary', operator, operand });
  }

  protected binary(operator: BinaryOperator, left: Expression, right: Expression): Expression {
    return foldExpression({ kind: 'binary', operator, left, right });
  }

  private logical(operator: '&&' | '||', leftNode: AnyNode, rightNode: Node, scope: Scope): Value {
    const left = this.plain(this.value(leftNode, scope), leftNode);
    const decided = condition(left);
    if (decided.kind === 'literal') {
      if (Boolean(decided.value) === (operator === '||')) return expressionValue(left);
      return this.value(rightNode, scope);
    }
    let right: Expression = literal(undefined);
    const work = this.capture(() => {
      right = this.plain(this.value(rightNode, scope), rightNode);
    });
    if (work.length === 0) return expressionValue({ kind: 'logical', operator, left, right });
    // The right side needs statements: they must not run when the left one decides.
    const origin = this.origin(rightNode);
    const variable = this.temporary(left, leftNode, 'decided');
    const last: Statement = { kind: 'assign', variable, value: right, origin };
    const yes = operator === '&&' ? [...work, last] : [];
    const no = operator === '||' ? [...work, last] : [];
    this.buffer.push({ kind: 'if', test: read(variable), yes, no, origin });
    return expressionValue(read(variable));
  }

  private conditional(node: ConditionalExpression, scope: Scope): Value {
    const test = condition(this.plain(this.value(node.test, scope), node.test));
    if (test.kind === 'literal') return this.value(test.value ? node.consequent : node.alternate, scope);
    let yes: Expression = literal(undefined);
    let no: Expression = literal(undefined);
    const workYes = this.capture(() => {
      yes = this.plain(this.value(node.consequent, scope), node);
    });
    const workNo = this.capture(() => {
      no = this.plain(this.value(node.alternate, scope), node);
    });
    if (workYes.length === 0 && workNo.length === 0) {
      return expressionValue({ kind: 'conditional', test, yes, no });
    }
    const origin = this.origin(node);
    const variable: Variable = { kind: 'temporary', hint: 'chosen' };
    this.buffer.push({
      kind: 'if',
      test,
      yes: [...workYes, { kind: 'assign', variable, value: yes, origin }],
      no: [...workNo, { kind: 'assign', variable, value: no, origin }],
      origin,
    });
    return expressionValue(read(variable));
  }

  private call(node: CallExpression, scope: Scope): Value {
    const { callee } = node;
    if (callee.type === 'Super') this.refuse(node, 'super', 'plain functions');
    for (const argument of node.arguments) {
      if (argument.type === 'SpreadElement') this.refuse(argument, 'a spread', 'single arguments');
    }
    const nodes = node.arguments as Node[];
    if (callee.type === 'Identifier' && !scope.get(callee.name)) {
      return this.callFunction(callee.name, nodes, node, scope);
    }
    const called = this.plain(this.value(callee, scope), callee);
    // a method stays with its object: taken by itself it would lose it
    const object = called.kind === 'property' ? called.object : called;
    const [target, ...values] = this.inOrder(
      [() => object, ...nodes.map((part) => () => this.plain(this.value(part, scope), part))],
      node,
    );
    const function_ = called.kind === 'property' ? { ...called, object: target! } : target!;
    return expressionValue({ kind: 'call', callee: function_, arguments: values, pure: false });
  }
}

export function hintOf(node: AnyNode): string {
  return node.type === 'Identifier' ? node.name : 'value';
}
