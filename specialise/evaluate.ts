/**
 * Runs a function of the source with what is known of its arguments and writes down what is left to do: calls are
 * replaced by the bodies of the functions called, loops by their turns, tests with a known outcome by the branch
 * taken, objects by their numbers.
 */
import type {
  AnyNode,
  AssignmentExpression,
  CallExpression,
  ConditionalExpression,
  ForStatement,
  FunctionDeclaration,
  IfStatement,
  MemberExpression,
  Expression as Node,
  Statement as NodeStatement,
  VariableDeclaration,
} from 'acorn';
import { addEffects, conflict, effectsOf, effectsOfBlock, type Effects } from './effects.ts';
import {
  type BinaryOperator,
  type Expression,
  literal,
  read,
  type UnaryOperator,
  type Variable,
} from './expression.ts';
import { fold } from './fold.ts';
import { mayReturn } from './may-return.ts';
import { SpecialiseError } from './problem.ts';
import { expressionValue, Scope, type Value, valueOf } from './scope.ts';
import type { Source } from './source.ts';
import type { Origin, Statement } from './statement.ts';
import { condition } from './condition.ts';
import { Slot, type Tree } from './tree.ts';

/** A function of the program to be printed. */
export interface Routine {
  name: string;
  variable: Variable;
  parameters: Variable[];
  body: Statement[];
}

/** Where the statements behind the present one are to be found. */
interface Continuation {
  nodes: readonly NodeStatement[];
  at: number;
  scope: Scope;
  next: Continuation | undefined;
}

/** One function that is being evaluated. */
interface Frame {
  stage: string;
  /** A routine of its own: returns are written as such. */
  isRoutine: boolean;
  /** Depth of branches that hold a return of this function. */
  branches: number;
  /** Takes the result where branches return it. */
  destination: Variable | undefined;
  result: Value | undefined;
}

const DEEPEST = 40;
const MOST_TURNS = 64;
const NOTHING: Value = expressionValue(literal(undefined));
const BINARY = ['+', '-', '*', '/', '%', '<', '>', '<=', '>=', '===', '!==', '&', '|', '^', '<<', '>>', '>>>'];

export class Evaluator {
  private readonly source: Source;
  /** Functions that stay functions of their own. */
  private readonly kept: ReadonlySet<string>;
  private buffer: Statement[] = [];
  private depth = 0;
  private stage = '';
  /** Kept functions, by name and by what is known of their arguments. */
  private readonly outlined: { name: string; trees: (Tree | undefined)[]; routine: Routine }[] = [];

  constructor(source: Source, kept: ReadonlySet<string>) {
    this.source = source;
    this.kept = kept;
  }

  /** Kept functions that the evaluated ones call. */
  keptRoutines(): Routine[] {
    return this.outlined.map(({ routine }) => routine);
  }

  /**
   * Evaluates a function as a routine of its own.
   * @param known one entry for each parameter; undefined = handed over at run time
   */
  routine(name: string, known: readonly (Tree | undefined)[], isKnown: readonly boolean[]): Routine {
    const declaration = this.functionOf(name, -1);
    const parameters: Variable[] = [];
    const values = declaration.params.map((parameter, i): Value => {
      if (isKnown[i]) return valueOf(known[i]);
      const variable: Variable = { kind: 'parameter', hint: parameterName(parameter) };
      parameters.push(variable);
      return expressionValue(read(variable));
    });
    const body = this.capture(() => this.body(declaration, values, true));
    return { name, variable: { kind: 'fixed', hint: name }, parameters, body };
  }

  // statements

  private capture(work: () => void): Statement[] {
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

  private origin(node: AnyNode): Origin {
    return { stage: this.stage, offset: node.start };
  }

  private refuse(node: AnyNode, seen: string, expected: string): never {
    throw new SpecialiseError(seen, expected, node.start);
  }

  private functionOf(name: string, offset: number): FunctionDeclaration {
    const declaration = this.source.functions.get(name);
    if (!declaration) throw new SpecialiseError(`the unknown name ${name}`, 'a function of the source', offset);
    return declaration;
  }

  /** Evaluates a function's body with its parameters bound. */
  private body(declaration: FunctionDeclaration, values: Value[], isRoutine: boolean): Value {
    if (++this.depth > DEEPEST) {
      this.refuse(declaration, `${declaration.id.name} within ${DEEPEST} calls`, 'no recursion');
    }
    const before = this.stage;
    this.stage = declaration.id.name;
    const scope = new Scope();
    declaration.params.forEach((parameter, i) => {
      scope.set(parameterName(parameter), { kind: 'value', value: this.held(values[i] ?? NOTHING, parameter) });
    });
    const frame: Frame = {
      stage: declaration.id.name,
      isRoutine,
      branches: 0,
      destination: undefined,
      result: undefined,
    };
    this.run({ nodes: declaration.body.body, at: 0, scope, next: undefined }, frame);
    this.stage = before;
    this.depth--;
    if (frame.destination) return expressionValue(read(frame.destination));
    return frame.result ?? NOTHING;
  }

  /** A value that later changes of what it was read from do not reach. */
  private held(value: Value, node: AnyNode): Value {
    if (value.kind === 'tree') return value;
    const e = value.expression;
    if (e.kind === 'literal') return value;
    if (e.kind === 'variable' && (e.variable.kind === 'fixed' || e.variable.kind === 'parameter')) return value;
    return expressionValue(read(this.temporary(e, node, hintOf(node))));
  }

  private temporary(value: Expression, node: AnyNode, hint: string): Variable {
    const variable: Variable = { kind: 'temporary', hint };
    this.buffer.push({ kind: 'assign', variable, value, origin: this.origin(node) });
    return variable;
  }

  /** Works through statements until they end or return. */
  private run(start: Continuation | undefined, frame: Frame): void {
    let here = start;
    while (here) {
      if (here.at >= here.nodes.length) {
        here = here.next;
        continue;
      }
      const node = here.nodes[here.at]!;
      const rest: Continuation = { ...here, at: here.at + 1 };
      if (node.type === 'ReturnStatement') {
        this.giveBack(node.argument ? this.value(node.argument, here.scope) : undefined, node, frame);
        return;
      }
      if (node.type === 'BlockStatement') {
        here = { nodes: node.body, at: 0, scope: new Scope(here.scope), next: rest };
      } else if (node.type === 'IfStatement') {
        const next = this.branch(node, here.scope, rest, frame);
        if (next === 'done') return;
        here = next;
      } else {
        this.simple(node, here.scope, frame);
        here = rest;
      }
    }
  }

  private giveBack(value: Value | undefined, node: AnyNode, frame: Frame): void {
    if (frame.isRoutine) {
      const e = value === undefined ? literal(undefined) : this.plain(value, node);
      if (value !== undefined || frame.branches > 0) {
        this.buffer.push({ kind: 'return', value: e, origin: this.origin(node) });
      }
    } else if (frame.branches === 0) {
      frame.result = value ?? NOTHING;
    } else if (value !== undefined) {
      frame.destination ??= { kind: 'temporary', hint: frame.stage };
      const e = this.plain(value, node);
      this.buffer.push({ kind: 'assign', variable: frame.destination, value: e, origin: this.origin(node) });
    }
  }

  /** @returns where to go on; 'done' when both branches went on to the function's end */
  private branch(
    node: IfStatement,
    scope: Scope,
    rest: Continuation,
    frame: Frame,
  ): Continuation | 'done' | undefined {
    const test = condition(this.plain(this.value(node.test, scope), node.test));
    const start = (branch: NodeStatement | null | undefined, next: Continuation | undefined) =>
      branch ? { nodes: [branch], at: 0, scope, next } : next;
    if (test.kind === 'literal') return start(test.value ? node.consequent : node.alternate, rest);
    const returns = mayReturn(node);
    const origin = this.origin(node);
    const next = returns ? rest : undefined;
    if (returns) frame.branches++;
    const yes = this.capture(() => this.run(start(node.consequent, next), frame));
    const no = this.capture(() => this.run(start(node.alternate, next), frame));
    if (returns) frame.branches--;
    this.buffer.push({ kind: 'if', test, yes, no, origin });
    return returns ? 'done' : rest;
  }

  private simple(node: NodeStatement, scope: Scope, frame: Frame): void {
    switch (node.type) {
      case 'EmptyStatement':
        return;
      case 'VariableDeclaration':
        return this.declare(node, scope);
      case 'ExpressionStatement':
        return this.act(node.expression, scope);
      case 'ForStatement':
        return this.unroll(node, scope, frame);
      case 'TryStatement': {
        if (mayReturn(node)) this.refuse(node, 'a return inside try', 'none there');
        if (!node.handler || node.finalizer) this.refuse(node, 'try without catch', 'try and catch');
        const origin = this.origin(node);
        const handlerBody = node.handler.body;
        const body = this.capture(() => this.run({ nodes: [node.block], at: 0, scope, next: undefined }, frame));
        const handler = this.capture(() =>
          this.run({ nodes: [handlerBody], at: 0, scope, next: undefined }, frame),
        );
        this.buffer.push({ kind: 'try', body, handler, origin });
        return;
      }
      default:
        this.refuse(node, `a ${node.type}`, 'assignments, calls, if, for with known bounds, try, return');
    }
  }

  private declare(node: VariableDeclaration, scope: Scope): void {
    for (const { id, init } of node.declarations) {
      if (id.type !== 'Identifier') this.refuse(node, 'a pattern', 'single names');
      const value = init ? this.value(init, scope) : NOTHING;
      if (node.kind === 'const') {
        scope.set(id.name, { kind: 'value', value: this.held(value, id) });
      } else {
        const variable: Variable = { kind: 'temporary', hint: id.name };
        const initial = this.plain(value, node);
        this.buffer.push({ kind: 'assign', variable, value: initial, origin: this.origin(node) });
        scope.set(id.name, { kind: 'variable', variable });
      }
    }
  }

  private unroll(node: ForStatement, outer: Scope, frame: Frame): void {
    if (mayReturn(node.body)) this.refuse(node, 'a return inside a loop', 'none there');
    const scope = new Scope(outer);
    const known = (e: Node): Value => {
      const value = this.value(e, scope);
      const isKnown = value.kind === 'expression' && value.expression.kind === 'literal';
      if (!isKnown) this.refuse(e, 'a loop bound that is not known', 'numbers from the settings');
      return value;
    };
    if (node.init?.type !== 'VariableDeclaration' || !node.test || !node.update) {
      this.refuse(node, 'a loop without counter', 'for (let i = ...; ...; ...)');
    }
    for (const { id, init } of node.init.declarations) {
      if (id.type !== 'Identifier' || !init) this.refuse(node, 'a loop without counter', 'let i = ...');
      scope.set(id.name, { kind: 'value', value: known(init) });
    }
    for (let turn = 0; ; turn++) {
      const test = known(node.test);
      if (!(test.kind === 'expression' && test.expression.kind === 'literal' && test.expression.value)) return;
      if (turn >= MOST_TURNS) this.refuse(node, `more than ${MOST_TURNS} turns of a loop`, 'fewer');
      this.run({ nodes: [node.body], at: 0, scope: new Scope(scope), next: undefined }, frame);
      const update = node.update;
      if (update.type === 'UpdateExpression' && update.argument.type === 'Identifier') {
        const now = known(update.argument);
        const value = now.kind === 'expression' && now.expression.kind === 'literal' ? now.expression.value : 0;
        const step = update.operator === '++' ? 1 : -1;
        scope.set(update.argument.name, {
          kind: 'value',
          value: expressionValue(literal((value as number) + step)),
        });
      } else if (
        update.type === 'AssignmentExpression' &&
        update.left.type === 'Identifier' &&
        update.operator !== '='
      ) {
        const changed = this.binary(
          update.operator.slice(0, -1) as BinaryOperator,
          this.plain(known(update.left), update),
          this.plain(known(update.right), update),
        );
        scope.set(update.left.name, { kind: 'value', value: expressionValue(changed) });
      } else this.refuse(node, 'such a step of a loop', 'i++, i-- or i += number');
    }
  }

  /** An expression as a statement. */
  private act(node: Node, scope: Scope): void {
    if (node.type === 'AssignmentExpression') return this.assign(node, scope);
    const value = this.value(node, scope);
    if (value.kind === 'tree') return;
    const effects = effectsOf(value.expression);
    if (effects.touches || effects.writes.size > 0) {
      this.buffer.push({ kind: 'do', value: value.expression, origin: this.origin(node) });
    }
  }

  private assign(node: AssignmentExpression, scope: Scope): void {
    const { left, operator } = node;
    const origin = this.origin(node);
    const changed = (old: () => Expression): Expression => {
      if (operator === '=') return this.plain(this.value(node.right, scope), node.right);
      const name = operator.slice(0, -1);
      if (!BINARY.includes(name)) this.refuse(node, operator, 'an arithmetic assignment');
      const [a, b] = this.inOrder([old, () => this.plain(this.value(node.right, scope), node.right)], node);
      return this.binary(name as BinaryOperator, a!, b!);
    };
    if (left.type === 'Identifier') {
      const binding = scope.get(left.name);
      if (binding?.kind !== 'variable') this.refuse(left, `an assignment to ${left.name}`, 'a let or a field');
      const { variable } = binding;
      const value = changed(() => read(variable));
      this.buffer.push({ kind: 'assign', variable, value, origin });
      return;
    }
    if (left.type !== 'MemberExpression' || left.object.type === 'Super') {
      this.refuse(left, `an assignment to a ${left.type}`, 'a let, a field or an element');
    }
    const object = this.value(left.object, scope);
    if (object.kind === 'tree') {
      const slot = this.member(object.tree, left, scope);
      if (!(slot instanceof Slot)) this.refuse(left, 'an assignment to a field that is fixed', 'state');
      const value = changed(() => read(slot.variable));
      this.buffer.push({ kind: 'assign', variable: slot.variable, value, origin });
      return;
    }
    if (!left.computed) this.refuse(left, 'an assignment to a property', 'state or an element');
    const [array, index, value] = this.inOrder(
      [
        () => object.expression,
        () => this.plain(this.value(left.property as Node, scope), left),
        () => changed(() => this.refuse(node, `${operator} of an element`, '=')),
      ],
      node,
    );
    this.buffer.push({ kind: 'store', object: array!, index: index!, value: value!, origin });
  }

  // expressions

  /** Evaluates parts one after the other; one that a later part changes is kept in a temporary. */
  private inOrder(parts: (() => Expression)[], node: AnyNode): Expression[] {
    const done: Expression[] = [];
    for (const part of parts) {
      const start = this.buffer.length;
      const next = part();
      // The part's own calls count too: the interpreter looks a name's value up only after the right side has run.
      const behind: Effects = effectsOfBlock(this.buffer.slice(start));
      addEffects(behind, { ...effectsOf(next), looks: false, touches: false });
      const saved: Statement[] = [];
      for (let i = 0; i < done.length; i++) {
        const e = done[i]!;
        if (!conflict(effectsOf(e), behind)) continue;
        const variable: Variable = { kind: 'temporary', hint: 'before' };
        saved.push({ kind: 'assign', variable, value: e, origin: this.origin(node) });
        done[i] = read(variable);
      }
      this.buffer.splice(start, 0, ...saved);
      done.push(next);
    }
    return done;
  }

  private plain(value: Value, node: AnyNode): Expression {
    if (value.kind === 'tree') this.refuse(node, 'an object', 'a single value here');
    return value.expression;
  }

  private value(node: Node | AnyNode, scope: Scope): Value {
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
    if (binding) return binding.value;
    if (this.source.constants.has(name)) return valueOf(this.source.constants.get(name));
    if (name === 'undefined') return NOTHING;
    if (name === 'NaN') return expressionValue(literal(Number.NaN));
    if (name === 'Infinity') return expressionValue(literal(Number.POSITIVE_INFINITY));
    return this.refuse(node, `the unknown name ${name}`, 'a name of the source; natives come in as arguments');
  }

  /** Field or element of a known object. */
  private member(tree: Tree, node: MemberExpression, scope: Scope): Tree {
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
    if (!Object.hasOwn(object, key)) this.refuse(node, `the field ${key}, which is not there`, Object.keys(object).join(', '));
    return object[key];
  }

  private memberValue(node: MemberExpression, scope: Scope): Value {
    const object = this.value(node.object, scope);
    if (object.kind === 'tree') return valueOf(this.member(object.tree, node, scope));
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
    if (operand.kind === 'literal') {
      const v = operand.value;
      if (operator === '!') return literal(!v);
      if (typeof v === 'number' && operator === '-') return literal(-v);
      if (typeof v === 'number' && operator === '~') return literal(~v);
    }
    if (!['-', '+', '!', '~', 'typeof'].includes(operator)) this.refuse(node, operator, '-, !, ~ or typeof');
    return { kind: 'unary', operator, operand };
  }

  private binary(operator: BinaryOperator, left: Expression, right: Expression): Expression {
    if (left.kind === 'literal' && right.kind === 'literal') {
      const folded = fold(operator, left.value, right.value);
      if (folded.known) return literal(folded.value);
    }
    return { kind: 'binary', operator, left, right };
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
    const [target, ...values] = this.inOrder(
      [callee, ...nodes].map((part) => () => this.plain(this.value(part, scope), part)),
      node,
    );
    return expressionValue({ kind: 'call', callee: target!, arguments: values, pure: false });
  }

  private callFunction(name: string, nodes: Node[], node: CallExpression, scope: Scope): Value {
    const declaration = this.functionOf(name, node.start);
    // Objects pass through; what is worked out is worked out in order.
    const trees: (Tree | undefined)[] = [];
    const isTree: boolean[] = [];
    const expressions = this.inOrder(
      nodes.map((part, i) => () => {
        const value = this.value(part, scope);
        isTree[i] = value.kind === 'tree';
        if (value.kind === 'tree') {
          trees[i] = value.tree;
          return literal(undefined);
        }
        return value.expression;
      }),
      node,
    );
    if (!this.kept.has(name)) {
      const values = expressions.map((e, i) => (isTree[i] ? valueOf(trees[i]) : expressionValue(e)));
      return this.body(declaration, values, false);
    }
    const routine = this.keptRoutine(name, trees, isTree);
    const effects = effectsOfRoutine(routine);
    const isPure = !effects.looks && !effects.touches && effects.reads.size === 0 && effects.writes.size === 0;
    return expressionValue({
      kind: 'call',
      callee: read(routine.variable),
      arguments: expressions.filter((_, i) => !isTree[i]),
      pure: isPure,
      effects,
    });
  }

  private keptRoutine(name: string, trees: (Tree | undefined)[], isTree: boolean[]): Routine {
    const same = this.outlined.find(
      (one) => one.name === name && one.trees.length === trees.length && one.trees.every((t, i) => t === trees[i]),
    );
    if (same) return same.routine;
    const routine = this.routine(name, trees, isTree);
    this.outlined.push({ name, trees: [...trees], routine });
    return routine;
  }
}

/** What calling a routine does to the rest of the program. */
function effectsOfRoutine(routine: Routine): Effects {
  const inner = effectsOfBlock(routine.body);
  const isOuter = (v: Variable) => v.kind === 'state';
  return {
    ...inner,
    reads: new Set([...inner.reads].filter(isOuter)),
    writes: new Set([...inner.writes].filter(isOuter)),
  };
}

function parameterName(node: AnyNode): string {
  if (node.type !== 'Identifier') {
    throw new SpecialiseError(`a parameter that is a ${node.type}`, 'plain names', node.start);
  }
  return node.name;
}

function hintOf(node: AnyNode): string {
  return node.type === 'Identifier' ? node.name : 'value';
}

