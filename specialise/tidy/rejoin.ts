import { condition } from '../condition.ts';
import { effectsOf } from '../effects.ts';
import type { Expression, Variable } from '../expression.ts';
import { type Statement, withBlocks } from '../statement.ts';

/**
 * A choice that was written as statements, because its right side seemed to need some, becomes an expression again:
 * `t = A; if (!t) t = B` is `t = A || B`.
 */
export function rejoin(body: Statement[]): Statement[] {
  const result: Statement[] = [];
  for (const raw of body) {
    const inner = withBlocks(raw, rejoin);
    const s: Statement = inner.kind === 'if' ? { ...inner, test: condition(inner.test) } : inner;
    const last = result[result.length - 1];
    const joined = last?.kind === 'assign' && s.kind === 'if' ? join(last, s) : undefined;
    if (joined) result[result.length - 1] = joined;
    else result.push(s);
  }
  return result;
}

function join(
  first: Extract<Statement, { kind: 'assign' }>,
  choice: Extract<Statement, { kind: 'if' }>,
): Statement | undefined {
  const { variable } = first;
  if (variable.kind !== 'temporary' || choice.no.length > 0 || choice.yes.length !== 1) return undefined;
  const only = choice.yes[0]!;
  if (only.kind !== 'assign' || only.variable !== variable || reads(only.value, variable)) return undefined;
  const operator = isRead(choice.test, variable)
    ? '&&'
    : choice.test.kind === 'unary' && choice.test.operator === '!' && isRead(choice.test.operand, variable)
      ? '||'
      : undefined;
  if (!operator) return undefined;
  return { ...first, value: { kind: 'logical', operator, left: first.value, right: only.value } };
}

function isRead(e: Expression, variable: Variable): boolean {
  return e.kind === 'variable' && e.variable === variable;
}

function reads(e: Expression, variable: Variable): boolean {
  return effectsOf(e).reads.has(variable);
}
