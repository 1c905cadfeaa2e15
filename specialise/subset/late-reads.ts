/**
 * Places where the interpreter sees another value than the language says: a name on the left of an operator, changed by
 * the right side, is looked up late. Assignments like `x += f()`: seen on 2v29.277. Binary operators: interpreters
 * before 2v25 (espruino/Espruino#2547).
 */
import type { AnyNode, Function as FunctionNode } from 'acorn';
import { eachNode, type SubsetProblem } from './rule.ts';

/** Stands for fields and elements of anything. */
const ANY = '*';

function ownNames(one: FunctionNode): Set<string> {
  const names = new Set(one.params.map((p) => (p.type === 'Identifier' ? p.name : '')));
  eachNode(one.body, (node) => {
    if (node.type === 'VariableDeclarator' && node.id.type === 'Identifier') names.add(node.id.name);
  });
  return names;
}

function written(
  node: AnyNode,
  functions: Map<string, FunctionNode>,
  seen: ReadonlySet<string>,
): Set<string> {
  const names = new Set<string>();
  eachNode(node, (part) => {
    const target =
      part.type === 'AssignmentExpression'
        ? part.left
        : part.type === 'UpdateExpression'
          ? part.argument
          : undefined;
    if (target) names.add(target.type === 'Identifier' ? target.name : ANY);
    if (part.type !== 'CallExpression') return;
    const name = part.callee.type === 'Identifier' ? part.callee.name : '';
    const called = functions.get(name);
    if (!called) names.add(ANY);
    else if (!seen.has(name)) {
      const own = ownNames(called);
      for (const one of written(called.body, functions, new Set([...seen, name]))) {
        if (!own.has(one)) names.add(one);
      }
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
      return [ANY];
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

/** @param isOld also binary operators, for interpreters before 2v25 */
export function lateReads(program: AnyNode, isOld: boolean): SubsetProblem[] {
  const functions = new Map<string, FunctionNode>();
  eachNode(program, (node) => {
    if (node.type === 'FunctionDeclaration' && node.id) functions.set(node.id.name, node as FunctionNode);
  });
  const problems: SubsetProblem[] = [];
  eachNode(program, (node) => {
    const isCompound = node.type === 'AssignmentExpression' && node.operator !== '=';
    if (!isCompound && !(isOld && node.type === 'BinaryExpression')) return;
    const changed = written(node.right, functions, new Set());
    const name = namesOf(node.left).find((one) => changed.has(one));
    if (name === undefined) return;
    const what = name === ANY ? 'an element or field' : name;
    problems.push({
      offset: node.start,
      seen: `${what}, which the right side of ${node.operator} may change`,
      expected: 'the right side in a statement of its own',
    });
  });
  return problems;
}
