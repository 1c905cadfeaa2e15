import { conflict, type Effects, effectsOf, isName, ownEffects, statementEffects } from '../effects.ts';
import { type Expression, type Variable, withParts } from '../expression.ts';
import { type Statement, withBlocks, withExpressions } from '../statement.ts';

/**
 * Puts a value in the place of the one read of a temporary, further down in the same block or inside it.
 * @param rest the statements behind the temporary's assignment
 * @returns the new statements; undefined if something on the way could change the value, or be changed by working it
 * out later
 */
export function substitute(
  rest: readonly Statement[],
  variable: Variable,
  value: Expression,
): Statement[] | undefined {
  const moved: Effects = effectsOf(value);
  const acts = moved.touches || moved.writes.size > 0;
  let outcome: 'seeking' | 'done' | 'failed' = 'seeking';
  let isBlocked = false;
  const isLate = isName(value);

  function place(e: Expression, isSure: boolean): Expression {
    if (outcome === 'done' && isLate && conflict(moved, effectsOf(e))) outcome = 'failed';
    if (outcome !== 'seeking') return e;
    if (e.kind === 'variable' && e.variable === variable) {
      outcome = isBlocked || (acts && !isSure) ? 'failed' : 'done';
      return outcome === 'done' ? value : e;
    }
    if (!effectsOf(e).reads.has(variable)) {
      if (conflict(moved, effectsOf(e))) isBlocked = true;
      return e;
    }
    let part = 0;
    const isChoice = e.kind === 'conditional' || e.kind === 'logical';
    const result = withParts(e, (inner) => place(inner, isSure && !(isChoice && part++ > 0)));
    if (outcome === 'seeking' && conflict(moved, ownEffects(e))) isBlocked = true;
    return result;
  }

  function block(statements: readonly Statement[], isSure: boolean): Statement[] {
    return statements.map((s) => statement(s, isSure));
  }

  function statement(s: Statement, isSure: boolean): Statement {
    if (outcome !== 'seeking') return s;
    let result = withExpressions(s, (e) => place(e, isSure));
    if (outcome !== 'seeking') return result;
    const before = isBlocked;
    let after = isBlocked;
    result = withBlocks(result, (inner) => {
      if (outcome !== 'seeking') return inner;
      isBlocked = before;
      const changed = block(inner, false);
      after ||= isBlocked;
      return changed;
    });
    isBlocked = after;
    if (conflict(moved, statementEffects(s))) isBlocked = true;
    return result;
  }

  const changed = block(rest, true);
  return (outcome as string) === 'done' ? changed : undefined;
}
