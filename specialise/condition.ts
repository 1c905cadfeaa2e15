import { effectsOf } from './effects.ts';
import { type Expression, literal } from './expression.ts';

/** An expression of which only the truth counts, without the numbers or words that say true and false. */
export function condition(e: Expression): Expression {
  if (e.kind === 'literal') return literal(Boolean(e.value));
  if (e.kind === 'unary' && e.operator === '!') {
    const inner = condition(e.operand);
    return inner.kind === 'literal' ? literal(!inner.value) : { ...e, operand: inner };
  }
  if (e.kind === 'logical') {
    const left = condition(e.left);
    const right = condition(e.right);
    if (left.kind === 'literal') return Boolean(left.value) === (e.operator === '||') ? left : right;
    // x && true is x; x || true is true only for an x that does nothing else
    if (right.kind === 'literal' && Boolean(right.value) === (e.operator === '&&')) return left;
    if (right.kind === 'literal' && !acts(left)) return right;
    return { ...e, left, right };
  }
  // whole numbers of 32 bits: never NaN
  if (e.kind === 'binary' && e.operator === '!==' && isZero(e.right) && isBits(e.left)) return e.left;
  if (e.kind !== 'conditional') return e;
  const test = condition(e.test);
  const yes = condition(e.yes);
  const no = condition(e.no);
  if (yes.kind === 'literal' && no.kind === 'literal') {
    if (yes.value && !no.value) return test;
    // A comparison is never turned round: with NaN it would not be its opposite.
    if (!yes.value && no.value) return { kind: 'unary', operator: '!', operand: test };
    if (!acts(test)) return yes;
  }
  return { ...e, test, yes, no };
}

function acts(e: Expression): boolean {
  const effects = effectsOf(e);
  return effects.touches || effects.writes.size > 0;
}

function isZero(e: Expression): boolean {
  return e.kind === 'literal' && e.value === 0;
}

function isBits(e: Expression): boolean {
  return e.kind === 'binary' && ['&', '|', '^', '<<', '>>', '>>>'].includes(e.operator);
}
