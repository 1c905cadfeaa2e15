import type { AnyNode } from 'acorn';

/** Whether a return statement of the same function lies in a statement. */
export function mayReturn(node: AnyNode | null | undefined): boolean {
  if (!node) return false;
  switch (node.type) {
    case 'ReturnStatement':
      return true;
    case 'BlockStatement':
      return node.body.some(mayReturn);
    case 'IfStatement':
      return mayReturn(node.consequent) || mayReturn(node.alternate);
    case 'ForStatement':
      return mayReturn(node.body);
    case 'TryStatement':
      return mayReturn(node.block) || mayReturn(node.handler?.body);
    default:
      return false;
  }
}
