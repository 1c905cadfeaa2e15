import type { Expression, Literal } from './expression.ts';

export type Folded = { known: true; value: Literal } | { known: false };

const UNKNOWN: Folded = { known: false };

/**
 * Value of an operator with two known operands, as the interpreter would work it out: the same IEEE doubles. Texts
 * and mixed kinds are left to it.
 */
export function fold(operator: string, left: Literal, right: Literal): Folded {
  if (operator === '===') return { known: true, value: left === right };
  if (operator === '!==') return { known: true, value: left !== right };
  if (typeof left !== 'number' || typeof right !== 'number') return UNKNOWN;
  const value = NUMBERS[operator]?.(left, right);
  return value === undefined ? UNKNOWN : { known: true, value };
}

/** The same for operators with one operand. */
export function foldUnary(operator: string, value: Literal): Folded {
  if (operator === '!') return { known: true, value: !value };
  if (typeof value !== 'number') return UNKNOWN;
  if (operator === '-') return { known: true, value: -value };
  return operator === '~' ? { known: true, value: ~value } : UNKNOWN;
}

/** An expression whose operands have become known, worked out; else the expression itself. */
export function foldExpression(e: Expression): Expression {
  let folded = UNKNOWN;
  if (e.kind === 'unary' && e.operand.kind === 'literal') folded = foldUnary(e.operator, e.operand.value);
  if (e.kind === 'binary' && e.left.kind === 'literal' && e.right.kind === 'literal') {
    folded = fold(e.operator, e.left.value, e.right.value);
  }
  return folded.known ? { kind: 'literal', value: folded.value } : e;
}

const NUMBERS: { [operator: string]: (a: number, b: number) => number | boolean } = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '%': (a, b) => a % b,
  '<': (a, b) => a < b,
  '>': (a, b) => a > b,
  '<=': (a, b) => a <= b,
  '>=': (a, b) => a >= b,
  '&': (a, b) => a & b,
  '|': (a, b) => a | b,
  '^': (a, b) => a ^ b,
  '<<': (a, b) => a << b,
  '>>': (a, b) => a >> b,
  '>>>': (a, b) => a >>> b,
};
