import { type Margin, verdictOf } from '../../sim/sizing/margin.ts';
import type { SizeAnswer } from './size-rig-file.ts';

/** Verdict in one sentence. */
export function headline({ ok, size, proposal }: SizeAnswer): string {
  const hands = size.hands.join(' to ');
  if (ok) {
    const open = proposal.left.length > 0 ? ', but something is left to do by hand' : '';
    return `Yes: on paper this build works for hands of ${hands} times the mean${open}.`;
  }
  const count = size.margins.filter((margin) => verdictOf(margin) === 'no').length;
  const things = `${count} thing${count === 1 ? '' : 's'} will not work for hands of ${hands} times the mean`;
  return proposal.ok && proposal.changes.length > 0
    ? `Not yet: ${things}. With the changes proposed below it does.`
    : `No: ${things}.`;
}

/** What is not among the tightest, but wrong or uncomfortable as well. */
export function alsoWrong({ size }: Pick<SizeAnswer, 'size'>): Margin[] {
  return size.margins.filter((margin) => margin.ratio < 1 && !size.breaksFirst.includes(margin));
}
