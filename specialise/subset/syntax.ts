/** Syntax that the interpreter does not know, or reads otherwise. Each seen on 2v29.277. */
import type { AnyNode } from 'acorn';
import type { Rule } from './rule.ts';

const UNKNOWN: { [type: string]: [seen: string, expected: string] } = {
  ArrayPattern: ['destructuring', 'single names'],
  AssignmentPattern: ['a default value of a parameter', 'a test in the body'],
  AwaitExpression: ['await', 'callbacks'],
  ChainExpression: ['?.', 'a test'],
  ClassDeclaration: ['a class', 'functions: fields, statics and super are misread'],
  ClassExpression: ['a class', 'functions: fields, statics and super are misread'],
  DebuggerStatement: ['debugger', 'none: it stops the board'],
  ImportExpression: ['import', 'one whole program'],
  LabeledStatement: ['a label', 'a function with return'],
  MetaProperty: ['new.target', 'plain functions'],
  ObjectPattern: ['destructuring', 'single names'],
  PrivateIdentifier: ['a private name', 'plain fields'],
  RestElement: ['a rest parameter', 'single parameters'],
  SpreadElement: ['a spread', 'single values'],
  TaggedTemplateExpression: ['a tagged template', 'a call'],
  WithStatement: ['with', 'fields by their whole names'],
  YieldExpression: ['yield', 'callbacks'],
};
const UNKNOWN_OPERATORS = ['**', '**=', '??=', '||=', '&&='];

export const syntaxRule: Rule = (node) => {
  const unknown = UNKNOWN[node.type];
  if (unknown) return { seen: unknown[0], expected: unknown[1] };
  if ('operator' in node && UNKNOWN_OPERATORS.includes(node.operator)) {
    return { seen: node.operator, expected: 'simple operators' };
  }
  if ('async' in node && node.async) return { seen: 'async', expected: 'callbacks' };
  if ('generator' in node && node.generator) return { seen: 'a generator', expected: 'callbacks' };
  if (node.type === 'Property' && node.computed) {
    return { seen: 'a computed key', expected: 'an assignment behind the object' };
  }
  if (node.type === 'SwitchStatement') {
    const at = node.cases.findIndex((one) => one.test === null);
    if (at >= 0 && at < node.cases.length - 1)
      return { seen: 'a case behind default', expected: 'default last' };
  }
  return undefined;
};

/** Places where the interpreter does something else, though it knows the syntax. */
export const meaningRule: Rule = (node) => {
  if (node.type === 'AssignmentExpression' && isProperty(node.left, 'length')) {
    return { seen: 'an assignment to length', expected: 'a new array' };
  }
  if (node.type === 'UnaryExpression' && node.operator === '-' && isNumber(node.argument, (v) => v === 0)) {
    return { seen: '-0, which is 0 there', expected: '0/-1' };
  }
  if (node.type === 'MemberExpression' && node.computed) {
    const { property } = node;
    const isNegative = property.type === 'UnaryExpression' && property.operator === '-';
    if (isNegative || isNumber(property, (v) => !Number.isInteger(v))) {
      return { seen: 'an index that is not a whole number from 0 on', expected: 'one: typed arrays throw' };
    }
  }
  return undefined;
};

function isProperty(node: AnyNode, name: string): boolean {
  return (
    node.type === 'MemberExpression' && node.property.type === 'Identifier' && node.property.name === name
  );
}

function isNumber(node: AnyNode, test: (value: number) => boolean): boolean {
  return node.type === 'Literal' && typeof node.value === 'number' && test(node.value);
}
