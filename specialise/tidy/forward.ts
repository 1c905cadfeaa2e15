import { type Expression, read, type Variable } from '../expression.ts';
import { mapExpressions, type Statement, withBlocks } from '../statement.ts';
import { staysEqual } from './copies.ts';
import { substitute } from './substitute.ts';
import { type Uses, usesOf } from './uses.ts';

function isConstant(e: Expression): boolean {
  return (
    e.kind === 'literal' ||
    (e.kind === 'variable' && (e.variable.kind === 'fixed' || e.variable.kind === 'parameter'))
  );
}

function replaceReads(rest: Statement[], variable: Variable, value: Expression): Statement[] {
  return mapExpressions(rest, (e) => (e.kind === 'variable' && e.variable === variable ? value : e));
}

/** Puts values where temporaries are read: those that are read once, and copies of other variables. */
export function forward(body: Statement[]): Statement[] {
  let current = body;
  for (;;) {
    const next = once(current, usesOf(current));
    if (!next) return current;
    current = next;
  }
}

/** One replacement somewhere in the block; undefined when there is none left. */
function once(block: Statement[], uses: Map<Variable, Uses>): Statement[] | undefined {
  for (let i = 0; i < block.length; i++) {
    const s = block[i]!;
    const rest = block.slice(i + 1);
    if (s.kind === 'assign' && s.variable.kind === 'temporary') {
      const use = uses.get(s.variable)!;
      if (use.writes === 1 && use.reads > 0) {
        const changed = replaced(s.variable, s.value, rest, use);
        if (changed) return [...block.slice(0, i), ...changed];
      }
    }
    let hasChanged = false;
    const inner = withBlocks(s, (part) => {
      if (hasChanged) return part;
      const changed = once(part, uses);
      hasChanged = changed !== undefined;
      return changed ?? part;
    });
    if (hasChanged) return [...block.slice(0, i), inner, ...rest];
  }
  return undefined;
}

function replaced(
  variable: Variable,
  value: Expression,
  rest: Statement[],
  use: Uses,
): Statement[] | undefined {
  // read outside this block too: there its value must stay
  if ((usesOf(rest).get(variable)?.reads ?? 0) !== use.reads) return undefined;
  if (isConstant(value)) return replaceReads(rest, variable, value);
  if (value.kind === 'variable' && staysEqual(rest, variable, value.variable)) {
    return replaceReads(rest, variable, read(value.variable));
  }
  return use.reads === 1 ? substitute(rest, variable, value) : undefined;
}
