/** Statements as text for the interpreter: no blanks, no comments, rare branches in braces. */
import { effectsOf } from './effects.ts';
import type { Expression, Variable } from './expression.ts';
import { exactLiteral } from './literals.ts';
import { SpecialiseError } from './problem.ts';
import type { Origin, Statement } from './statement.ts';

export type NameOf = (v: Variable) => string;

const BINARY_LEVEL: { [operator: string]: number } = {
  '|': 4,
  '^': 5,
  '&': 6,
  '===': 7,
  '!==': 7,
  '<': 8,
  '>': 8,
  '<=': 8,
  '>=': 8,
  '<<': 9,
  '>>': 9,
  '>>>': 9,
  '+': 10,
  '-': 10,
  '*': 11,
  '/': 11,
  '%': 11,
};
const ASSIGN = 0;
const CONDITIONAL = 1;
const OR = 2;
const AND = 3;
const UNARY = 12;
const ATOM = 13;

/** Boards are built without Unicode: their characters are bytes. */
function quoted(text: string): string {
  return JSON.stringify(text).replace(/[\x7f-\uffff]/g, (character) => {
    const code = character.charCodeAt(0);
    if (code > 0xff) throw new SpecialiseError(`the character ${character}`, 'ASCII', -1);
    return `\\x${code.toString(16)}`;
  });
}

export function literalText(value: string | number | boolean | null | undefined): string {
  if (typeof value === 'number') return exactLiteral(value);
  return typeof value === 'string' ? quoted(value) : String(value);
}

/** Text of an expression. @param level what is weaker than this is put in brackets */
export function printExpression(e: Expression, nameOf: NameOf, level = ASSIGN): string {
  const inner = (part: Expression, at: number) => printExpression(part, nameOf, at);
  const wrap = (text: string, own: number) => (own < level ? `(${text})` : text);
  switch (e.kind) {
    case 'literal':
      return literalText(e.value);
    case 'variable':
      return nameOf(e.variable);
    case 'unary': {
      const operand = inner(e.operand, UNARY);
      const gap = e.operator === 'typeof' ? ' ' : '';
      // two signs in a row would be another operator
      return wrap(
        /^[-+]/.test(operand) && operand[0] === e.operator
          ? `${e.operator}(${operand})`
          : `${e.operator}${gap}${operand}`,
        UNARY,
      );
    }
    case 'binary': {
      const own = BINARY_LEVEL[e.operator]!;
      const right = inner(e.right, own + 1);
      const guarded = right[0] === e.operator ? `(${right})` : right;
      return wrap(`${inner(e.left, own)}${e.operator}${guarded}`, own);
    }
    case 'logical': {
      const own = e.operator === '||' ? OR : AND;
      return wrap(`${inner(e.left, own)}${e.operator}${inner(e.right, own + 1)}`, own);
    }
    case 'conditional':
      return wrap(
        `${inner(e.test, OR)}?${inner(e.yes, CONDITIONAL)}:${inner(e.no, CONDITIONAL)}`,
        CONDITIONAL,
      );
    case 'call':
      return `${inner(e.callee, ATOM)}(${e.arguments.map((a) => inner(a, ASSIGN)).join(',')})`;
    case 'element':
      return `${inner(e.object, ATOM)}[${inner(e.index, ASSIGN)}]`;
    case 'property':
      return `${inner(e.object, ATOM)}.${e.name}`;
    case 'assign':
      return wrap(assignment(e.variable, e.value, nameOf), ASSIGN);
  }
}

/** `x=x+y` is written `x+=y`: one name less to look up. */
function assignment(variable: Variable, value: Expression, nameOf: NameOf): string {
  const name = nameOf(variable);
  if (
    value.kind === 'binary' &&
    ['+', '-', '*', '/', '|', '&'].includes(value.operator) &&
    value.left.kind === 'variable' &&
    value.left.variable === variable &&
    !effectsOf(value.right).writes.has(variable)
  ) {
    return `${name}${value.operator}=${printExpression(value.right, nameOf, CONDITIONAL)}`;
  }
  return `${name}=${printExpression(value, nameOf, CONDITIONAL)}`;
}

/** A piece of the printed text and where it comes from. */
export interface Piece {
  text: string;
  origin: Origin | undefined;
}

/** Text of a block in pieces, one for each statement and branch. */
export function printBlock(block: Statement[], nameOf: NameOf): Piece[] {
  const pieces: Piece[] = [];
  block.forEach((s, i) => {
    const isLast = i === block.length - 1;
    pieces.push(...printStatement(s, nameOf, isLast));
  });
  return pieces;
}

function printStatement(s: Statement, nameOf: NameOf, isLast: boolean): Piece[] {
  const { origin } = s;
  const end = isLast ? '' : ';';
  const print = (e: Expression, level = ASSIGN) => printExpression(e, nameOf, level);
  switch (s.kind) {
    case 'assign':
      return [{ text: assignment(s.variable, s.value, nameOf) + end, origin }];
    case 'store':
      return [{ text: `${print(s.object, ATOM)}[${print(s.index)}]=${print(s.value)}${end}`, origin }];
    case 'do':
      return [{ text: print(s.value) + end, origin }];
    case 'return':
      return [{ text: `return ${print(s.value)}${end}`, origin }];
    case 'try':
      return [
        { text: 'try{', origin },
        ...printBlock(s.body, nameOf),
        { text: '}catch(_){', origin },
        ...printBlock(s.handler, nameOf),
        { text: '}', origin },
      ];
    case 'if': {
      const pieces: Piece[] = [
        { text: `if(${print(s.test)}){`, origin },
        ...printBlock(s.yes, nameOf),
        { text: '}', origin },
      ];
      if (s.no.length === 0) return pieces;
      const isChain = s.no.length === 1 && s.no[0]!.kind === 'if';
      pieces.push({ text: isChain ? 'else ' : 'else{', origin });
      pieces.push(...printBlock(s.no, nameOf));
      if (!isChain) pieces.push({ text: '}', origin });
      return pieces;
    }
  }
}
