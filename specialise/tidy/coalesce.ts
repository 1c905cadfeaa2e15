import { effectsOf } from '../effects.ts';
import type { Variable } from '../expression.ts';
import {
  blocksOf,
  eachStatement,
  expressionsOf,
  mapExpressions,
  type Statement,
  withBlocks,
} from '../statement.ts';

/**
 * Two temporaries of which one is a copy of the other on some path become one, where the original is not needed any
 * more once the copy has a value: `if (c) b = f(a); else b = a` becomes `if (c) a = f(a)`.
 */
export function coalesce(body: Statement[]): Statement[] {
  let current = body;
  for (;;) {
    const pair = pairs(current).find(([copy, original]) => isFree(current, copy, original));
    if (!pair) return current;
    current = rename(current, pair[0], pair[1]);
  }
}

function pairs(body: Statement[]): [copy: Variable, original: Variable][] {
  const found: [Variable, Variable][] = [];
  eachStatement(body, (s) => {
    if (s.kind !== 'assign' || s.value.kind !== 'variable' || s.variable === s.value.variable) return;
    if (s.variable.kind === 'temporary' && s.value.variable.kind === 'temporary') {
      found.push([s.variable, s.value.variable]);
    }
  });
  return found;
}

/** Whether the original is neither read nor written on any path on which the copy has been written. */
function isFree(body: Statement[], copy: Variable, original: Variable): boolean {
  let free = true;
  const walk = (block: Statement[], before: boolean): boolean => {
    let isWritten = before;
    for (const s of block) {
      for (const e of expressionsOf(s)) {
        if (isWritten && effectsOf(e).reads.has(original)) free = false;
      }
      if (s.kind === 'assign') {
        if (s.variable === original && isWritten) free = false;
        if (s.variable === copy) isWritten = true;
      }
      let after = isWritten;
      for (const inner of blocksOf(s)) after = walk(inner, s.kind === 'try' ? after : isWritten) || after;
      isWritten = after;
    }
    return isWritten;
  };
  walk(body, false);
  return free;
}

function rename(body: Statement[], from: Variable, to: Variable): Statement[] {
  const targets = (block: Statement[]): Statement[] =>
    block.flatMap((s): Statement[] => {
      const inner = withBlocks(s, targets);
      if (inner.kind !== 'assign' || inner.variable !== from) {
        // the original's own assignment from the copy
        return [inner];
      }
      const isSelf = inner.value.kind === 'variable' && inner.value.variable === to;
      return isSelf ? [] : [{ ...inner, variable: to }];
    });
  return mapExpressions(targets(body), (e) =>
    e.kind === 'variable' && e.variable === from ? { kind: 'variable', variable: to } : e,
  );
}
