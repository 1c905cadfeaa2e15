/** The text of the board's modules as one ES chunk: its functions and its constants. */
import { type AnyNode, type FunctionDeclaration, type Expression as Node, type Program, parse } from 'acorn';
import type { Literal } from './expression.ts';
import { fold } from './fold.ts';
import { SpecialiseError } from './problem.ts';

export interface Source {
  text: string;
  program: Program;
  functions: Map<string, FunctionDeclaration>;
  /** Constants with a known value. */
  constants: Map<string, Literal>;
}

function constantOf(node: Node, constants: Map<string, Literal>): Literal {
  if (node.type === 'Literal' && !('regex' in node && node.regex)) return node.value as Literal;
  if (node.type === 'Identifier' && constants.has(node.name)) return constants.get(node.name);
  if (node.type === 'UnaryExpression' && node.operator === '-') {
    return -(constantOf(node.argument, constants) as number);
  }
  if (node.type === 'BinaryExpression' && node.left.type !== 'PrivateIdentifier') {
    const value = fold(node.operator, constantOf(node.left, constants), constantOf(node.right, constants));
    if (value.known) return value.value;
  }
  throw new SpecialiseError(`a ${node.type}`, 'a constant of literals', node.start);
}

/**
 * Parses a chunk.
 * @throws SpecialiseError for anything at its top level that is neither function nor constant
 */
export function parseSource(text: string): Source {
  const program = parse(text, { ecmaVersion: 2022, sourceType: 'module' });
  const functions = new Map<string, FunctionDeclaration>();
  const constants = new Map<string, Literal>();
  for (const statement of program.body as AnyNode[]) {
    const node = (statement.type === 'ExportNamedDeclaration' && statement.declaration) || statement;
    if (node.type === 'FunctionDeclaration' && node.id)
      functions.set(node.id.name, node as FunctionDeclaration);
    else if (node.type === 'VariableDeclaration' && node.kind === 'const') {
      for (const { id, init } of node.declarations) {
        if (id.type !== 'Identifier' || !init) continue;
        try {
          constants.set(id.name, constantOf(init, constants));
        } catch (error) {
          // arrays and objects stay what they are; only code that is not specialised may use them
          if (!(error instanceof SpecialiseError)) throw error;
        }
      }
    } else if (node.type !== 'ExportNamedDeclaration') {
      throw new SpecialiseError(`a ${node.type} outside functions`, 'functions and constants', node.start);
    }
  }
  return { text, program, functions, constants };
}
