import { type Margin, verdictOf } from '../../../sim/sizing/margin.ts';
import { changeCostWords } from '../../parts/parts-words.ts';
import { marginVerdict, whoWords } from '../../report/size/answer-section.ts';
import { wrapWords } from '../../report/wrap.ts';
import { changeWords } from '../../size/change-file.ts';
import type { SizeAnswer } from '../../size/size-rig-file.ts';
import { alsoWrong, headline } from '../../size/size-words.ts';

/** So many further discomforts are told unless all are asked for. */
const SHOWN = 2;

/** Verdict, what breaks first, and what to change. */
export function answerLines(answer: SizeAnswer, columns: number, isFull: boolean): string[] {
  const lines = [...wrapWords(headline(answer), columns), '', 'What breaks first'];
  for (const margin of answer.size.breaksFirst) lines.push(...marginLines(margin, columns));
  const others = alsoWrong(answer);
  const shown = isFull ? others : others.filter((margin, i) => i < SHOWN || verdictOf(margin) === 'no');
  if (shown.length > 0) {
    lines.push('', 'Also');
    for (const margin of shown) lines.push(...marginLines(margin, columns));
  }
  const more = others.length - shown.length;
  if (more > 0) lines.push(`  and ${more} more that ${more === 1 ? 'is' : 'are'} not comfortable: --full`);
  lines.push('', ...proposalLines(answer, columns));
  return lines;
}

function marginLines(margin: Margin, columns: number): string[] {
  const cure = verdictOf(margin) === 'ok' ? '' : ` Cure: ${margin.cure}.`;
  const text = `${margin.group}, ${marginVerdict(margin)}, ${whoWords(margin)}: ${margin.what} is ${margin.seen}; ${margin.allowed}.${cure}`;
  return hung(text, columns);
}

function hung(text: string, columns: number): string[] {
  return wrapWords(text, columns - 4).map((line, i) => (i > 0 ? `    ${line}` : `  ${line}`));
}

function proposalLines({ proposal, size }: SizeAnswer, columns: number): string[] {
  const lines = ['Proposed changes'];
  if (proposal.changes.length === 0) lines.push('  none');
  for (const change of proposal.changes) {
    const { what, from, to } = changeWords(change);
    const cost = changeCostWords(change.cost, size.parts.currency);
    lines.push(...hung(`${whoWords(change)}: ${what} ${from} -> ${to} (${cost}): ${change.why}.`, columns));
  }
  if (proposal.changes.length > 0) lines.push('  "tautline size --write" puts them into the rig file.');
  for (const sentence of proposal.left) lines.push(...hung(`To do by hand: ${sentence}`, columns));
  return lines;
}
