/** Names: where they are declared, in what order, and how long they are. The interpreter does not hoist. */
import type { AnyNode } from 'acorn';
import { PIN } from './known.ts';
import { eachNode, isFunction, type Path, type SubsetProblem } from './rule.ts';

/** The interpreter cuts longer names off: those that begin alike become one. */
const LONGEST = 63;
/** Words of the interpreter that are names in scripts. */
const RESERVED = ['of', 'static'];

interface Name {
  /** Place from which on it is there. */
  start: number;
  /** Function or program that it belongs to. */
  owner: AnyNode;
  /** Loop that has it in its head. */
  loop: AnyNode | undefined;
}

/** Scopes are the nodes that begin them. */
type Scopes = Map<AnyNode, Map<string, Name>>;

function ownerOf(path: Path): AnyNode {
  return path.findLast((node) => isFunction(node) || node.type === 'Program')!;
}

function blockOf(path: Path): AnyNode {
  return path.findLast((node) => isFunction(node) || isBlock(node))!;
}

function isBlock(node: AnyNode): boolean {
  return /^(Program|BlockStatement|For.*Statement|SwitchStatement|CatchClause)$/.test(node.type);
}

function declare(scopes: Scopes, scope: AnyNode, name: string, one: Name): void {
  let names = scopes.get(scope);
  if (!names) {
    names = new Map();
    scopes.set(scope, names);
  }
  // a second declaration changes nothing
  if (!names.has(name)) names.set(name, one);
}

function collect(program: AnyNode): Scopes {
  const scopes: Scopes = new Map();
  eachNode(program, (node, path) => {
    if (node.type === 'VariableDeclaration') {
      const owner = ownerOf(path);
      const scope = node.kind === 'var' ? owner : blockOf(path);
      const isHead = /^For/.test(path.at(-1)!.type) && node.kind !== 'var';
      for (const { id } of node.declarations) {
        if (id.type !== 'Identifier') continue;
        declare(scopes, scope, id.name, { start: id.start, owner, loop: isHead ? path.at(-1) : undefined });
      }
    }
    if (node.type === 'FunctionDeclaration' && node.id) {
      const owner = ownerOf(path);
      declare(scopes, owner, node.id.name, { start: node.start, owner, loop: undefined });
    }
    if (isFunction(node) && 'params' in node) {
      if (node.type === 'FunctionExpression' && node.id) {
        declare(scopes, node, node.id.name, { start: node.start, owner: node, loop: undefined });
      }
      for (const parameter of node.params) {
        if (parameter.type !== 'Identifier') continue;
        declare(scopes, node, parameter.name, { start: node.start, owner: node, loop: undefined });
      }
    }
    if (node.type === 'CatchClause' && node.param?.type === 'Identifier') {
      const owner = ownerOf(path);
      declare(scopes, node, node.param.name, { start: node.start, owner, loop: undefined });
    }
  });
  return scopes;
}

/** Whether an identifier is the name of a field, not of a variable. */
function isFieldName(node: AnyNode, path: Path): boolean {
  const above = path.at(-1)!;
  if (above.type === 'MemberExpression') return above.property === node && !above.computed;
  if (above.type === 'Property') return above.key === node && !above.computed && above.value !== node;
  return /^(MethodDefinition|PropertyDefinition|LabeledStatement|BreakStatement|ContinueStatement|MetaProperty)$/.test(
    above.type,
  );
}

/** @param known names that are there without being declared */
export function nameProblems(program: AnyNode, known: ReadonlySet<string>): SubsetProblem[] {
  const scopes = collect(program);
  const problems: SubsetProblem[] = [];
  eachNode(program, (node, path) => {
    if (node.type !== 'Identifier') return;
    const { name, start } = node;
    const add = (seen: string, expected: string) => problems.push({ offset: start, seen, expected });
    if (name.length > LONGEST) add(`a name of ${name.length} characters`, `at most ${LONGEST}`);
    if (isFieldName(node, path)) return;
    if (RESERVED.includes(name)) add(`the name ${name}, a word of the interpreter`, 'another name');
    const found = path.findLast((scope) => scopes.get(scope)?.has(name));
    const one = found && scopes.get(found)!.get(name)!;
    if (!one) {
      const above = path.at(-1)!;
      const isAsked = above.type === 'UnaryExpression' && above.operator === 'typeof';
      if (!isAsked && !known.has(name) && !PIN.test(name)) {
        add(`the name ${name}, which nothing declares`, 'a declared name or one of the interpreter');
      }
      return;
    }
    if (start < one.start && one.owner === ownerOf(path)) {
      add(`${name} before its declaration`, 'the declaration first: the interpreter does not hoist');
    }
    if (one.loop && path.slice(path.indexOf(one.loop)).some(isFunction)) {
      add(
        `${name} of a loop in a function made there`,
        'a let in the body: all turns share the one of the head',
      );
    }
  });
  return problems;
}
