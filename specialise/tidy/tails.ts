import { condition } from '../condition.ts';
import type { Expression, Variable } from '../expression.ts';
import { type Statement, withBlocks } from '../statement.ts';
import { type Uses, usesOf } from './uses.ts';

/**
 * Where branches choose a temporary that the next statement alone uses, that statement moves into the branches:
 * `if (c) t = A; else t = B; x = t` becomes `if (c) x = A; else x = B`, and
 * `if (c) t = true; else t = false; if (t) S` becomes `if (c) S`.
 */
export function pushIntoBranches(body: Statement[]): Statement[] {
  const uses = usesOf(body);
  const clean = (block: Statement[]): Statement[] => {
    const result: Statement[] = [];
    for (const raw of block) {
      const s = withBlocks(raw, clean);
      const last = result[result.length - 1];
      const chosen = chosenVariable(s);
      if (last?.kind === 'if' && chosen && isLone(uses, chosen) && endsAll(last, chosen, s, uses)) {
        result[result.length - 1] = replaceEnds(last, chosen, s)[0]!;
      } else result.push(s);
    }
    return result;
  };
  return clean(body);
}

function isLone(uses: Map<Variable, Uses>, v: Variable): boolean {
  return v.kind === 'temporary' && uses.get(v)!.reads === 1;
}

/** The variable that a statement does nothing but pass on, or tests. */
function chosenVariable(s: Statement): Variable | undefined {
  if (s.kind === 'if') return s.test.kind === 'variable' ? s.test.variable : undefined;
  if (s.kind === 'store' && !(isFixed(s.object) && isFixed(s.index))) return undefined;
  if (s.kind !== 'assign' && s.kind !== 'return' && s.kind !== 'store') return undefined;
  return s.value.kind === 'variable' ? s.value.variable : undefined;
}

function isFixed(e: Expression): boolean {
  return e.kind === 'literal' || (e.kind === 'variable' && e.variable.kind === 'fixed');
}

/** Whether every end of the branches assigns the variable, and nothing else does. */
function endsAll(s: Statement, v: Variable, next: Statement, uses: Map<Variable, Uses>): boolean {
  const ends = endsOf(s, v);
  if (ends === undefined || ends.length !== uses.get(v)!.writes) return false;
  // A test moves only where the outcome is known at every end: it would be written several times otherwise.
  return next.kind !== 'if' || ends.every((e) => e.kind === 'literal');
}

/** Values that the ends of a statement assign; undefined when one does not. */
function endsOf(s: Statement, v: Variable): Expression[] | undefined {
  if (s.kind === 'assign') return s.variable === v ? [s.value] : undefined;
  if (s.kind !== 'if' || s.yes.length === 0 || s.no.length === 0) return undefined;
  const yes = endsOf(s.yes[s.yes.length - 1]!, v);
  const no = endsOf(s.no[s.no.length - 1]!, v);
  return yes && no ? [...yes, ...no] : undefined;
}

function replaceEnds(s: Statement, v: Variable, by: Statement): Statement[] {
  if (s.kind === 'if') {
    return [
      withBlocks(s, (block) => [...block.slice(0, -1), ...replaceEnds(block[block.length - 1]!, v, by)]),
    ];
  }
  if (s.kind === 'assign') {
    if (by.kind === 'assign' || by.kind === 'store' || by.kind === 'return')
      return [{ ...by, value: s.value }];
    if (by.kind === 'if') {
      const test = condition(s.value);
      if (test.kind === 'literal') return test.value ? by.yes : by.no;
    }
  }
  throw new Error(`an end of the branches that is a ${s.kind}`);
}
