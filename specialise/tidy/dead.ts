import { effectsOf } from '../effects.ts';
import type { Expression, Variable } from '../expression.ts';
import { type Statement, withBlocks } from '../statement.ts';
import { usesOf } from './uses.ts';

function acts(e: Expression): boolean {
  const effects = effectsOf(e);
  return effects.touches || effects.writes.size > 0;
}

/**
 * Drops what has no effect: assignments nobody reads, `x = x`, branches without content.
 * @param isRead whether another function may read a state variable
 */
export function dropDead(body: Statement[], isRead: (v: Variable) => boolean): Statement[] {
  let current = body;
  for (;;) {
    const next = sweep(current, isRead);
    if (JSON.stringify(sizes(next)) === JSON.stringify(sizes(current))) return next;
    current = next;
  }
}

function sizes(block: Statement[]): unknown[] {
  return block.map((s) =>
    s.kind === 'if'
      ? [sizes(s.yes), sizes(s.no)]
      : s.kind === 'try'
        ? [sizes(s.body), sizes(s.handler)]
        : s.kind,
  );
}

function sweep(body: Statement[], isRead: (v: Variable) => boolean): Statement[] {
  const uses = usesOf(body);
  const isNeeded = (v: Variable) => (uses.get(v)?.reads ?? 0) > 0 || (v.kind === 'state' && isRead(v));
  const clean = (block: Statement[]): Statement[] => overwritten(block.flatMap((s) => one(s)));
  function one(s: Statement): Statement[] {
    const { origin } = s;
    if (s.kind === 'assign') {
      if (s.value.kind === 'variable' && s.value.variable === s.variable) return [];
      if (isNeeded(s.variable)) return [s];
      return acts(s.value) ? [{ kind: 'do', value: s.value, origin }] : [];
    }
    if (s.kind === 'do') return acts(s.value) ? [s] : [];
    const inner = withBlocks(s, clean);
    if (inner.kind === 'try') return inner.body.length > 0 ? [inner] : [];
    if (inner.kind !== 'if') return [inner];
    if (inner.yes.length === 0 && inner.no.length === 0) {
      return acts(inner.test) ? [{ kind: 'do', value: inner.test, origin }] : [];
    }
    if (inner.yes.length === 0) {
      // Not by turning the comparison round: with NaN that is not the opposite.
      const { test } = inner;
      const opposite: Expression =
        test.kind === 'unary' && test.operator === '!'
          ? test.operand
          : { kind: 'unary', operator: '!', operand: test };
      return [{ ...inner, test: opposite, yes: inner.no, no: [] }];
    }
    return [inner];
  }
  return clean(body);
}

/** Without assignments that the next statement overwrites unread. */
function overwritten(block: Statement[]): Statement[] {
  return block.filter((s, i) => {
    const next = block[i + 1];
    if (s.kind !== 'assign' || next?.kind !== 'assign' || next.variable !== s.variable) return true;
    const later = effectsOf(next.value);
    // where the next one's call throws, the first value is what a handler or the next frame finds
    return acts(s.value) || later.touches || later.reads.has(s.variable);
  });
}
