import type { Variable } from '../expression.ts';
import { eachExpression, eachStatement, type Statement } from '../statement.ts';

export interface Uses {
  reads: number;
  writes: number;
}

/** How often each variable is read and written in a block. */
export function usesOf(block: Statement[]): Map<Variable, Uses> {
  const uses = new Map<Variable, Uses>();
  const of = (v: Variable): Uses => {
    let one = uses.get(v);
    if (!one) {
      one = { reads: 0, writes: 0 };
      uses.set(v, one);
    }
    return one;
  };
  eachExpression(block, (e) => {
    if (e.kind === 'variable') of(e.variable).reads++;
    if (e.kind === 'assign') of(e.variable).writes++;
  });
  eachStatement(block, (s) => {
    if (s.kind === 'assign') of(s.variable).writes++;
  });
  return uses;
}
