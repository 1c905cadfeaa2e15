/**
 * Intermediate form of a specialised function: expressions. Nothing here knows TypeScript, boards or chains.
 * Every node is plain data and never changed after it was made.
 */
import type { Effects } from './effects.ts';

/**
 * A name of the program to be printed.
 * - `state` keeps its value from call to call
 * - `temporary` is written before it is read in each call
 * - `parameter` of the function
 * - `fixed` never changes once the program has started: natives, views, functions
 */
export interface Variable {
  kind: 'state' | 'temporary' | 'parameter' | 'fixed';
  /** What it was called in the source, for the map and for messages. */
  hint: string;
}

export type UnaryOperator = '-' | '+' | '!' | '~' | 'typeof';
export type BinaryOperator =
  | '+'
  | '-'
  | '*'
  | '/'
  | '%'
  | '<'
  | '>'
  | '<='
  | '>='
  | '==='
  | '!=='
  | '&'
  | '|'
  | '^'
  | '<<'
  | '>>'
  | '>>>';

export type Literal = number | string | boolean | null | undefined;

export type Expression =
  | { kind: 'literal'; value: Literal }
  | { kind: 'variable'; variable: Variable }
  | { kind: 'unary'; operator: UnaryOperator; operand: Expression }
  | { kind: 'binary'; operator: BinaryOperator; left: Expression; right: Expression }
  | { kind: 'logical'; operator: '&&' | '||'; left: Expression; right: Expression }
  | { kind: 'conditional'; test: Expression; yes: Expression; no: Expression }
  /** `pure`: depends on its arguments alone and changes nothing. `effects`: all that it does, where that is known. */
  | { kind: 'call'; callee: Expression; arguments: Expression[]; pure: boolean; effects?: Effects }
  | { kind: 'element'; object: Expression; index: Expression }
  | { kind: 'property'; object: Expression; name: string }
  /** An assignment whose value is used; only the last steps make these. */
  | { kind: 'assign'; variable: Variable; value: Expression };

export function literal(value: Literal): Expression {
  return { kind: 'literal', value };
}

export function read(variable: Variable): Expression {
  return { kind: 'variable', variable };
}

/** The direct parts of an expression, in the order in which they are evaluated. */
export function partsOf(e: Expression): Expression[] {
  switch (e.kind) {
    case 'literal':
    case 'variable':
      return [];
    case 'unary':
      return [e.operand];
    case 'binary':
    case 'logical':
      return [e.left, e.right];
    case 'conditional':
      return [e.test, e.yes, e.no];
    case 'call':
      return [e.callee, ...e.arguments];
    case 'element':
      return [e.object, e.index];
    case 'property':
      return [e.object];
    case 'assign':
      return [e.value];
  }
}

/** The same expression with its direct parts replaced. @param replace called in order of evaluation */
export function withParts(e: Expression, replace: (part: Expression) => Expression): Expression {
  switch (e.kind) {
    case 'literal':
    case 'variable':
      return e;
    case 'unary':
      return { ...e, operand: replace(e.operand) };
    case 'binary':
    case 'logical':
      return { ...e, left: replace(e.left), right: replace(e.right) };
    case 'conditional':
      return { ...e, test: replace(e.test), yes: replace(e.yes), no: replace(e.no) };
    case 'call':
      return { ...e, callee: replace(e.callee), arguments: e.arguments.map(replace) };
    case 'element':
      return { ...e, object: replace(e.object), index: replace(e.index) };
    case 'property':
      return { ...e, object: replace(e.object) };
    case 'assign':
      return { ...e, value: replace(e.value) };
  }
}
