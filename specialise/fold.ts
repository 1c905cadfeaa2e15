import type { Literal } from './expression.ts';

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
