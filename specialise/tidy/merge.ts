import { ownEffects } from '../effects.ts';
import { type Expression, partsOf, type Variable, withParts } from '../expression.ts';
import { type Statement, withBlocks, withExpressions } from '../statement.ts';

/**
 * Moves an assignment into the next statement where that begins by reading the variable: `x = A; y = x * B` becomes
 * `y = (x = A) * B`. Saves a name and a statement.
 */
export function mergeIntoFirstRead(body: Statement[]): Statement[] {
  const result: Statement[] = [];
  for (const raw of body) {
    const s = withBlocks(raw, mergeIntoFirstRead);
    let merged = s;
    for (;;) {
      const last = result[result.length - 1];
      const next = last?.kind === 'assign' ? mergeInto(merged, last.variable, last.value) : undefined;
      if (!next) break;
      result.pop();
      merged = next;
    }
    result.push(merged);
  }
  return result;
}

function mergeInto(s: Statement, variable: Variable, value: Expression): Statement | undefined {
  let state: 'seeking' | 'done' | 'failed' = 'seeking';
  const place = (e: Expression): Expression => {
    if (state !== 'seeking') return e;
    if (e.kind === 'variable' && e.variable === variable) {
      state = 'done';
      return { kind: 'assign', variable, value };
    }
    if (e.kind === 'literal' || (e.kind === 'variable' && e.variable.kind === 'fixed')) return e;
    if (partsOf(e).length === 0) {
      state = 'failed';
      return e;
    }
    let part = 0;
    const isChoice = e.kind === 'conditional' || e.kind === 'logical';
    const result = withParts(e, (inner) => {
      if (isChoice && part++ > 0 && state === 'seeking') state = 'failed';
      return place(inner);
    });
    if (state === 'seeking' && e.kind !== 'unary' && e.kind !== 'binary') state = 'failed';
    return result;
  };
  const result = withExpressions(s, place);
  if ((state as string) !== 'done') return undefined;
  // `x = (x = A) + B`: the outer assignment would make the inner one dead weight, and the names would clash
  if (s.kind === 'assign' && s.variable === variable) return undefined;
  return later(result, variable) ? undefined : result;
}

/** Whether the merged variable is assigned a second time in the same statement. */
function later(s: Statement, variable: Variable): boolean {
  let count = 0;
  withExpressions(s, (e) => {
    const deep = (part: Expression): void => {
      if (part.kind === 'assign' && part.variable === variable) count++;
      if (part.kind === 'call' && ownEffects(part).writes.has(variable)) count++;
      partsOf(part).forEach(deep);
    };
    deep(e);
    return e;
  });
  return count > 1;
}
