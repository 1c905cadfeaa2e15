import { type Margin, verdictOf } from '../../../sim/sizing/margin.ts';
import { escapeHtml } from '../escape.ts';
import { list, paragraph, table } from '../html.ts';

/** How a margin is called where people read it. */
export const VERDICT_WORDS = { no: 'does not work', tight: 'only just', ok: 'fine' } as const;

export function marginVerdict(margin: Margin): string {
  return margin.isSoft && margin.ratio < 1 ? 'uncomfortable' : VERDICT_WORDS[verdictOf(margin)];
}

export function whoWords(margin: Pick<Margin, 'fingers'>): string {
  if (margin.fingers.length === 0) return 'the whole hand';
  return margin.fingers.length > 4 ? 'all fingers' : margin.fingers.join(', ');
}

/** The verdict, and the tightest margin of each group. */
export function answerSection(
  headline: string,
  isFine: boolean,
  breaksFirst: readonly Margin[],
  others: readonly Margin[],
  warnings: readonly string[],
): string {
  const kinds = { no: 'no', tight: 'barely', ok: 'yes' };
  const rows = breaksFirst.map((margin) => [
    { text: margin.group },
    { text: marginVerdict(margin), kind: kinds[verdictOf(margin)] },
    {
      text: `${whoWords(margin)}: ${margin.what} is ${margin.seen}; ${margin.allowed}.${verdictOf(margin) === 'ok' ? '' : ` Cure: ${margin.cure}.`}`,
      kind: 'words',
    },
  ]);
  return [
    `<section id="answer" class="verdict${isFine ? '' : ' no'}" aria-labelledby="answer-heading">`,
    `<h2 id="answer-heading" class="stamp">${isFine ? '✓ Works on paper' : '✗ Does not work yet'}</h2>`,
    paragraph(headline, 'headline'),
    ...(warnings.length > 0
      ? [`<div class="notice" role="note"><strong>Mind this</strong>${list([...warnings])}</div>`]
      : []),
    `<h3>${escapeHtml('What breaks first')}</h3>`,
    table([{ text: 'Group' }, { text: 'Verdict' }, { text: 'What' }], rows, { class: 'stack' }),
    ...(others.length > 0
      ? [
          '<h3>Also</h3>',
          list(
            others.map(
              (m) =>
                `${m.group}, ${marginVerdict(m)}, ${whoWords(m)}: ${m.what} is ${m.seen}; ${m.allowed}. Cure: ${m.cure}.`,
            ),
          ),
        ]
      : []),
    '</section>',
  ].join('\n');
}
