import type { AnyNode } from 'acorn';

/** A place in a program that the board's interpreter would misread, or would not know. */
export interface SubsetProblem {
  /** In the program's text. */
  offset: number;
  seen: string;
  expected: string;
}

/** The nodes above one, the nearest last. */
export type Path = readonly AnyNode[];

/** @returns what is wrong with this node itself; undefined = nothing */
export type Rule = (
  node: AnyNode,
  path: Path,
  text: string,
) => { seen: string; expected: string } | undefined;

export function childrenOf(node: AnyNode): AnyNode[] {
  const children: AnyNode[] = [];
  for (const value of Object.values(node) as unknown[]) {
    if (typeof value !== 'object' || value === null) continue;
    if (!Array.isArray(value)) {
      if ('type' in value) children.push(value as AnyNode);
      continue;
    }
    for (const part of value as unknown[])
      if (typeof part === 'object' && part !== null && 'type' in part) children.push(part as AnyNode);
  }
  return children;
}

/** Calls `visit` for a node and all below it, outer ones first. */
export function eachNode(node: AnyNode, visit: (node: AnyNode, path: Path) => void, path: Path = []): void {
  visit(node, path);
  const inner = [...path, node];
  for (const part of childrenOf(node)) eachNode(part, visit, inner);
}

export function isFunction(node: AnyNode): boolean {
  return /^(FunctionDeclaration|FunctionExpression|ArrowFunctionExpression)$/.test(node.type);
}
