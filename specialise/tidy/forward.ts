import { effectsOf } from '../effects.ts';
import { type Expression, read, type Variable, withParts } from '../expression.ts';
import { foldExpression } from '../fold.ts';
import { type Statement, withBlocks, withExpressions } from '../statement.ts';
import { staysEqual } from './copies.ts';
import { substitute } from './substitute.ts';
import { type Uses, usesOf } from './uses.ts';

/** @returns the block with all reads replaced; undefined if some lie elsewhere: there the value must stay */
function replaceReads(
  block: readonly Statement[],
  variable: Variable,
  value: Expression,
  reads: number,
): Statement[] | undefined {
  let found = 0;
  const deep = (e: Expression): Expression => {
    if (!effectsOf(e).reads.has(variable)) return e;
    // The interpreter would take -0 for 0, and so would 0 * -1 be 0 there: worked out here.
    if (e.kind !== 'variable') return foldExpression(withParts(e, deep));
    found++;
    return value;
  };
  const inBlock = (statements: readonly Statement[]): Statement[] =>
    statements.map((s) => withBlocks(withExpressions(s, deep), inBlock));
  const changed = inBlock(block);
  return found === reads ? changed : undefined;
}

/** Puts values where temporaries are read: those that are read once, and copies of other variables. */
export function forward(body: Statement[]): Statement[] {
  const uses = usesOf(body);
  let hasChanged = false;
  const pass = (start: Statement[]): Statement[] => {
    let block = start;
    for (let i = 0; i < block.length; ) {
      const s = block[i]!;
      const changed = replaced(s, block.slice(i + 1), uses);
      if (changed) {
        block = [...block.slice(0, i), ...changed];
        hasChanged = true;
      } else {
        block = [...block.slice(0, i), withBlocks(s, pass), ...block.slice(i + 1)];
        i++;
      }
    }
    return block;
  };
  let current = body;
  do {
    hasChanged = false;
    current = pass(current);
  } while (hasChanged);
  return current;
}

/** What stands behind an assignment, without need of it; undefined where it is needed. */
function replaced(s: Statement, rest: Statement[], uses: Map<Variable, Uses>): Statement[] | undefined {
  if (s.kind !== 'assign' || s.variable.kind !== 'temporary') return undefined;
  const { variable, value } = s;
  const use = uses.get(variable)!;
  if (use.writes !== 1 || use.reads === 0) return undefined;
  if (value.kind === 'literal') return replaceReads(rest, variable, value, use.reads);
  if (value.kind === 'variable') {
    const isConstant = value.variable.kind === 'fixed' || value.variable.kind === 'parameter';
    if (isConstant || staysEqual(rest, variable, value.variable)) {
      const changed = replaceReads(rest, variable, read(value.variable), use.reads);
      if (changed) uses.get(value.variable)!.reads += use.reads - 1;
      return changed;
    }
  }
  return use.reads === 1 ? substitute(rest, variable, value) : undefined;
}
