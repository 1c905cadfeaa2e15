/**
 * Places where an interpreter that looks names up late would see another value than the language says: a name as the
 * left side of an operator, changed by the right side (binary operators: interpreters before 2v25,
 * espruino/Espruino#2547; `x += ...`: all, seen on 2v29.277). Written from those observations, not from the
 * specialiser.
 */
import { type AnyNode, type Function as FunctionNode, parse } from 'acorn';

function childrenOf(node: AnyNode): AnyNode[] {
  return Object.values(node)
    .flat()
    .filter((part): part is AnyNode => typeof part === 'object' && part !== null && 'type' in part);
}

function each(node: AnyNode, visit: (node: AnyNode) => void): void {
  visit(node);
  for (const part of childrenOf(node)) each(part, visit);
}

function ownNames(one: FunctionNode): Set<string> {
  const names = new Set(one.params.map((p) => (p.type === 'Identifier' ? p.name : '')));
  each(one.body, (node) => {
    if (node.type === 'VariableDeclarator' && node.id.type === 'Identifier') names.add(node.id.name);
  });
  return names;
}

/** `*` stands for elements and properties of anything. */
function written(node: AnyNode, functions: Map<string, FunctionNode>, seen = new Set<string>()): Set<string> {
  const names = new Set<string>();
  each(node, (part) => {
    const target =
      part.type === 'AssignmentExpression'
        ? part.left
        : part.type === 'UpdateExpression'
          ? part.argument
          : undefined;
    if (target) names.add(target.type === 'Identifier' ? target.name : '*');
    if (part.type !== 'CallExpression') return;
    const name = part.callee.type === 'Identifier' ? part.callee.name : '';
    const called = functions.get(name);
    if (!called) names.add('*');
    else if (!seen.has(name)) {
      const own = ownNames(called);
      for (const one of written(called.body, functions, new Set([...seen, name])))
        if (!own.has(one)) names.add(one);
    }
  });
  return names;
}

/** Names that an expression may hand on without having looked them up. */
function namesOf(node: AnyNode): string[] {
  switch (node.type) {
    case 'Identifier':
      return [node.name];
    case 'MemberExpression':
      return ['*'];
    case 'LogicalExpression':
      return [...namesOf(node.left), ...namesOf(node.right)];
    case 'ConditionalExpression':
      return [...namesOf(node.consequent), ...namesOf(node.alternate)];
    case 'AssignmentExpression':
      return namesOf(node.left);
    default:
      return [];
  }
}

export function lateReads(text: string): string[] {
  const program = parse(text, { ecmaVersion: 2022 });
  const functions = new Map<string, FunctionNode>();
  each(program, (node) => {
    if (node.type === 'FunctionDeclaration' && node.id) functions.set(node.id.name, node as FunctionNode);
  });
  const found: string[] = [];
  each(program, (node) => {
    const isCompound = node.type === 'AssignmentExpression' && node.operator !== '=';
    if (!isCompound && node.type !== 'BinaryExpression') return;
    const changed = written(node.right, functions);
    if (namesOf(node.left).some((name) => changed.has(name)))
      found.push(`late: ${text.slice(node.start, node.end)}`);
  });
  return found;
}
