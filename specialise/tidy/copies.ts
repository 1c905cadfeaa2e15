import { effectsOf } from '../effects.ts';
import type { Variable } from '../expression.ts';
import { blocksOf, expressionsOf, type Statement } from '../statement.ts';

/** Whether a copy of a variable still equals it at every later read of the copy. */
export function staysEqual(rest: readonly Statement[], copy: Variable, original: Variable): boolean {
  let isEqual = true;
  // returns whether the original may have been written
  function block(statements: readonly Statement[], dirty: boolean): boolean {
    let isDirty = dirty;
    for (const s of statements) {
      for (const e of expressionsOf(s)) {
        const effects = effectsOf(e);
        const writes = effects.writes.has(original);
        if (effects.reads.has(copy) && (isDirty || writes)) isEqual = false;
        isDirty ||= writes;
      }
      let after = isDirty;
      for (const inner of blocksOf(s)) {
        // a handler runs after any part of the body
        const start = s.kind === 'try' ? after : isDirty;
        after = block(inner, start) || after;
      }
      isDirty = after || (s.kind === 'assign' && s.variable === original);
    }
    return isDirty;
  }
  block(rest, false);
  return isEqual;
}
