/**
 * Runs a function of the source with what is known of its arguments and writes down what is left to do: calls are
 * replaced by the bodies of the functions called, loops by their turns, tests with a known outcome by the branch
 * taken, objects by their numbers.
 */
import type {
  AnyNode,
  AssignmentExpression,
  CallExpression,
  ForStatement,
  FunctionDeclaration,
  IfStatement,
  Expression as Node,
  Statement as NodeStatement,
  VariableDeclaration,
} from 'acorn';
import { condition } from './condition.ts';
import { effectsOf } from './effects.ts';
import { BINARY, NOTHING, ValueEvaluator } from './evaluate-values.ts';
import { type BinaryOperator, type Expression, literal, read, type Variable } from './expression.ts';
import type { Continuation, Frame } from './frame.ts';
import { mayReturn } from './may-return.ts';
import { SpecialiseError } from './problem.ts';
import { effectsOfRoutine, parameterName, type Routine } from './routine.ts';
import { expressionValue, Scope, treeValue, type Value } from './scope.ts';
import type { Source } from './source.ts';
import { Slot, type Tree } from './tree.ts';

const DEEPEST = 40;
const MOST_TURNS = 64;

export class Evaluator extends ValueEvaluator {
  /** Functions that stay functions of their own. */
  private readonly kept: ReadonlySet<string>;
  private depth = 0;
  /** Kept functions, by name and by what is known of their arguments. */
  private readonly outlined: {
    name: string;
    trees: (Tree | undefined)[];
    isTree: boolean[];
    routine: Routine;
  }[] = [];

  constructor(source: Source, kept: ReadonlySet<string>) {
    super(source);
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
      if (isKnown[i]) return treeValue(known[i]);
      const variable: Variable = { kind: 'parameter', hint: parameterName(parameter) };
      parameters.push(variable);
      return expressionValue(read(variable));
    });
    const body = this.capture(() => this.body(declaration, values, true));
    return { name, variable: { kind: 'fixed', hint: name }, parameters, body };
  }

  private functionOf(name: string, offset: number): FunctionDeclaration {
    const declaration = this.source.functions.get(name);
    if (!declaration)
      throw new SpecialiseError(`the unknown name ${name}`, 'a function of the source', offset);
    if (declaration.async || declaration.generator)
      this.refuse(declaration, `${name}, which can pause`, 'a plain function');
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
      scope.set(parameterName(parameter), {
        kind: 'value',
        value: this.held(values[i] ?? NOTHING, parameter),
      });
    });
    const frame: Frame = {
      stage: declaration.id.name,
      isRoutine,
      branches: 0,
      destination: undefined,
      result: undefined,
      endsEmpty: false,
    };
    const start = this.buffer.length;
    this.run({ nodes: declaration.body.body, at: 0, scope, next: undefined }, frame);
    const { destination } = frame;
    if (destination && frame.endsEmpty) {
      // else it would keep what an earlier call returned
      const origin = this.origin(declaration);
      this.buffer.splice(start, 0, {
        kind: 'assign',
        variable: destination,
        value: literal(undefined),
        origin,
      });
    }
    this.stage = before;
    this.depth--;
    if (destination) return expressionValue(read(destination));
    return frame.result ?? NOTHING;
  }

  /** Works through statements until they end or return. @returns whether they came to an end without return */
  private run(start: Continuation | undefined, frame: Frame): boolean {
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
        return false;
      }
      if (node.type === 'BlockStatement') {
        here = { nodes: node.body, at: 0, scope: new Scope(here.scope), next: rest };
      } else if (node.type === 'IfStatement') {
        const next = this.branch(node, here.scope, rest, frame);
        if (next === 'done') return false;
        here = next;
      } else {
        this.simple(node, here.scope, frame);
        here = rest;
      }
    }
    return true;
  }

  private giveBack(value: Value | undefined, node: AnyNode, frame: Frame): void {
    if (frame.isRoutine) {
      const e = value === undefined ? literal(undefined) : this.plain(value, node);
      if (value !== undefined || frame.branches > 0) {
        this.buffer.push({ kind: 'return', value: e, origin: this.origin(node) });
      }
    } else if (frame.branches === 0) {
      frame.result = value ?? NOTHING;
    } else if (value === undefined) {
      frame.endsEmpty = true;
    } else {
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
    const branch = (to: NodeStatement | null | undefined) =>
      this.capture(() => {
        if (this.run(start(to, next), frame) && returns) frame.endsEmpty = true;
      });
    const yes = branch(node.consequent);
    const no = branch(node.alternate);
    if (returns) frame.branches--;
    this.buffer.push({ kind: 'if', test, yes, no, origin });
    return returns ? 'done' : rest;
  }

  private simple(node: NodeStatement, scope: Scope, frame: Frame): void {
    switch (node.type) {
      case 'EmptyStatement':
        return;
      case 'VariableDeclaration':
        this.declare(node, scope);
        return;
      case 'ExpressionStatement':
        this.act(node.expression, scope);
        return;
      case 'ForStatement':
        this.unroll(node, scope, frame);
        return;
      case 'TryStatement': {
        if (mayReturn(node)) this.refuse(node, 'a return inside try', 'none there');
        if (!node.handler || node.finalizer) this.refuse(node, 'try without catch', 'try and catch');
        const origin = this.origin(node);
        const { body: handlerBody, param } = node.handler;
        const handlerScope = new Scope(scope);
        if (param) handlerScope.set(parameterName(param), { kind: 'unknown' });
        const body = this.capture(() =>
          this.run({ nodes: [node.block], at: 0, scope, next: undefined }, frame),
        );
        const handler = this.capture(() =>
          this.run({ nodes: [handlerBody], at: 0, scope: handlerScope, next: undefined }, frame),
        );
        this.buffer.push({ kind: 'try', body, handler, origin });
        return;
      }
      default:
        this.refuse(node, `a ${node.type}`, 'assignments, calls, if, for with known bounds, try, return');
    }
  }

  private declare(node: VariableDeclaration, scope: Scope): void {
    if (node.kind === 'var') this.refuse(node, 'var', 'const or let');
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
    const counters = new Set<string>();
    for (const { id, init } of node.init.declarations) {
      if (id.type !== 'Identifier' || !init) this.refuse(node, 'a loop without counter', 'let i = ...');
      scope.set(id.name, { kind: 'value', value: known(init) });
      counters.add(id.name);
    }
    for (let turn = 0; ; turn++) {
      const test = known(node.test);
      if (!(test.kind === 'expression' && test.expression.kind === 'literal' && test.expression.value))
        return;
      if (turn >= MOST_TURNS) this.refuse(node, `more than ${MOST_TURNS} turns of a loop`, 'fewer');
      this.run({ nodes: [node.body], at: 0, scope: new Scope(scope), next: undefined }, frame);
      this.step(node, scope, counters, known);
    }
  }

  /** Changes a loop's counter by its step. */
  private step(
    node: ForStatement,
    scope: Scope,
    counters: ReadonlySet<string>,
    known: (e: Node) => Value,
  ): void {
    const update = node.update!;
    const isCount = update.type === 'UpdateExpression';
    if (!isCount && (update.type !== 'AssignmentExpression' || update.operator === '=')) {
      this.refuse(update, 'such a step of a loop', 'i++, i-- or i += number');
    }
    const counter = isCount ? update.argument : update.left;
    if (counter.type !== 'Identifier' || !counters.has(counter.name)) {
      this.refuse(update, 'a step that changes something else', 'one that changes the counter of this loop');
    }
    const by = isCount ? expressionValue(literal(1)) : known(update.right);
    const changed = this.binary(
      update.operator.slice(0, isCount ? 1 : -1) as BinaryOperator,
      this.plain(known(counter), counter),
      this.plain(by, update),
    );
    scope.set(counter.name, { kind: 'value', value: expressionValue(changed) });
  }

  /** An expression as a statement. */
  private act(node: Node, scope: Scope): void {
    if (node.type === 'AssignmentExpression') {
      this.assign(node, scope);
      return;
    }
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
      if (binding?.kind !== 'variable')
        this.refuse(left, `an assignment to ${left.name}`, 'a let or a field');
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

  protected callFunction(name: string, nodes: Node[], node: CallExpression, scope: Scope): Value {
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
      const values = expressions.map((e, i) => (isTree[i] ? treeValue(trees[i]) : expressionValue(e)));
      return this.body(declaration, values, false);
    }
    const routine = this.keptRoutine(name, trees, isTree);
    const effects = effectsOfRoutine(routine);
    const isPure =
      !effects.looks && !effects.touches && effects.reads.size === 0 && effects.writes.size === 0;
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
      (one) =>
        one.name === name && isTree.every((is, i) => is === one.isTree[i] && one.trees[i] === trees[i]),
    );
    if (same) return same.routine;
    const routine = this.routine(name, trees, isTree);
    this.outlined.push({ name, trees: [...trees], isTree: [...isTree], routine });
    return routine;
  }
}
