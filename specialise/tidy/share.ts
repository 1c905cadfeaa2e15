import { effectsOf } from '../effects.ts';
import type { Variable } from '../expression.ts';
import { blocksOf, expressionsOf, mapExpressions, type Statement, withBlocks } from '../statement.ts';

interface Range {
  first: number;
  last: number;
}

/** Gives temporaries that are never needed at the same time one name, so that the program has few of them. */
export function shareTemporaries(body: Statement[]): Statement[] {
  const ranges = rangesOf(body);
  const free: { variable: Variable; range: Range }[] = [];
  const names = new Map<Variable, Variable>();
  const inOrder = [...ranges].sort(([, a], [, b]) => a.first - b.first);
  for (const [variable, range] of inOrder) {
    // At the same place: each begins as the target of an assignment, whose value may use the name's last content.
    const taken = free.find(({ range: other }) => other.last <= range.first);
    if (taken) {
      taken.range = { ...taken.range, last: range.last };
      names.set(variable, taken.variable);
    } else {
      free.push({ variable, range: { ...range } });
      names.set(variable, variable);
    }
  }
  const rename = (block: Statement[]): Statement[] =>
    block.map((s) => {
      const inner = withBlocks(s, rename);
      return inner.kind === 'assign'
        ? { ...inner, variable: names.get(inner.variable) ?? inner.variable }
        : inner;
    });
  return mapExpressions(rename(body), (e) =>
    e.kind === 'variable' ? { kind: 'variable', variable: names.get(e.variable) ?? e.variable } : e,
  );
}

/** From the first to the last place of each temporary, in the order of the text. */
function rangesOf(body: Statement[]): Map<Variable, Range> {
  const ranges = new Map<Variable, Range>();
  let place = 0;
  const meet = (v: Variable): void => {
    if (v.kind !== 'temporary') return;
    const range = ranges.get(v);
    if (range) range.last = place;
    else ranges.set(v, { first: place, last: place });
  };
  const walk = (block: Statement[]): void => {
    for (const s of block) {
      place++;
      for (const e of expressionsOf(s)) for (const v of effectsOf(e).reads) meet(v);
      if (s.kind === 'assign') meet(s.variable);
      blocksOf(s).forEach(walk);
    }
  };
  walk(body);
  return ranges;
}
